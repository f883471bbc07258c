//! At which step of mixing each material goes in, where the block lets that be known.

use crate::facts::{Bath, Dose, Known, is_liquid};
use crate::notebook::{Step, Verb};
use crate::pantry::Property;

/// For each step, the materials that go in at it; none at most steps, and none anywhere where the steps leave it open.
///
/// - One step that takes something in (`steep`, `boil`, `dissolve`) takes in all that its part holds.
/// - Of one that steeps or boils and others that dissolve, the leaves go to the first and all else to the others.
/// - As many steps that dissolve as there are materials take one each, in the order written.
/// - Where nothing steeps, boils or dissolves, one `stir` takes in all, if it comes before anything else could join.
pub(super) fn going_in<'b>(steps: &[Step], doses: &[&'b Dose]) -> Vec<Vec<&'b Dose>> {
    let at = |verbs: &[Verb]| -> Vec<usize> {
        let all = steps.iter().enumerate();
        all.filter(|(_, step)| verbs.contains(&step.verb))
            .map(|(at, _)| at)
            .collect()
    };
    let infusing = at(&[Verb::Steep, Verb::Boil]);
    let dissolving = at(&[Verb::Dissolve]);
    let stirring = at(&[Verb::Stir]);
    let joining = at(&[Verb::Pour, Verb::Combine, Verb::MakeUp, Verb::Dilute]);
    let mut taken = vec![Vec::new(); steps.len()];
    let mut give = |at: usize, doses: Vec<&'b Dose>| {
        if let Some(step) = taken.get_mut(at) {
            *step = doses;
        }
    };
    match (&infusing[..], &dissolving[..], &stirring[..]) {
        (&[only], [], _) | ([], &[only], _) => give(only, doses.to_vec()),
        (&[infuses], [_, ..], _) if doses.iter().all(|dose| is_known(dose)) => {
            let (leaves, others): (Vec<_>, Vec<_>) = doses.iter().copied().partition(|dose| is_leaf(dose));
            give(infuses, leaves);
            match dissolving[..] {
                [only] => give(only, others),
                _ => one_each(&dissolving, &others, give),
            }
        }
        ([], [_, ..], _) => one_each(&dissolving, doses, give),
        ([], [], &[only]) if joining.iter().all(|join| only < *join) => give(only, doses.to_vec()),
        _ => {}
    }
    taken
}

fn one_each<'b>(steps: &[usize], doses: &[&'b Dose], mut give: impl FnMut(usize, Vec<&'b Dose>)) {
    if steps.len() == doses.len() {
        for (step, dose) in steps.iter().zip(doses) {
            give(*step, vec![*dose]);
        }
    }
}

fn is_known(dose: &Dose) -> bool {
    !matches!(dose.known, Known::Unknown { .. })
}

/// Whether a material is steeped: leaves and roots are, the juice of a plant is not.
fn is_leaf(dose: &Dose) -> bool {
    dose.is(Property::Plant) && !dose.material().is_some_and(is_liquid)
}

/// A name without its form, which the table of amounts has: `washing soda`. Whole, where two names of a bath begin alike.
pub(super) fn short<'n>(name: &'n str, bath: &Bath) -> &'n str {
    let stem = stem_of(name);
    let alike = bath.doses.iter().filter(|dose| stem_of(&dose.name.value) == stem);
    if alike.count() > 1 { name } else { stem }
}

/// A name up to its form.
pub(super) fn stem_of(name: &str) -> &str {
    name.split_once(", ").map_or(name, |(stem, _)| stem)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::host::Memory;
    use crate::pipeline::{Silent, proof};

    /// What goes in at each step that takes something in, of a part with these materials and steps.
    fn told(add: &[&str], steps: &[&str]) -> Vec<String> {
        let (add, steps) = (add.join("\n  "), steps.join("\n  - "));
        let page = format!(
            "```recipe\nid: b\nrole: developer\nmakes: 1 l\nwater: 500 ml\nadd:\n  {add}\nsteps:\n  - {steps}\n```\n"
        );
        let host = Memory::new()
            .with(
                "trayside.yaml",
                "format: 1
title: T
",
            )
            .with("b.md", page);
        let proof = proof(&host, &Silent).expect("a notebook");
        let bath = proof.facts.baths.get("b").expect("a bath");
        let doses: Vec<&Dose> = bath.doses.iter().collect();
        let taken = going_in(&bath.recipe.steps, &doses);
        assert_eq!(taken.len(), bath.recipe.steps.len());
        let names = taken.iter().map(|doses| {
            let names: Vec<&str> = doses.iter().map(|dose| short(&dose.name.value, bath)).collect();
            names.join("+")
        });
        names.collect()
    }

    const SODA: &str = "washing soda, anhydrous: 30 g";
    const ACID: &str = "vitamin C powder: 10 g";
    const TEA: &str = "black tea: 40 g";

    #[test]
    fn the_only_step_that_takes_something_in_takes_all() {
        assert_eq!(
            told(&[SODA, ACID], &["heat: 40 °C", "dissolve: 5 min", "make up"]),
            ["", "washing soda+vitamin C powder", ""]
        );
        assert_eq!(
            told(&[TEA, SODA], &["steep: 20 min", "strain"]),
            ["black tea+washing soda", ""]
        );
        assert_eq!(
            told(&["vinegar 8 %: 75 ml"], &["stir: 1 min", "make up"]),
            ["vinegar 8 %", ""]
        );
    }

    #[test]
    fn leaves_are_steeped_and_salts_dissolved() {
        assert_eq!(
            told(
                &["Na2CO3: 30 g", TEA],
                &["steep: 20 min", "strain", "dissolve: 5 min"]
            ),
            ["black tea", "", "Na2CO3"]
        );
        assert_eq!(
            told(&[SODA, ACID], &["dissolve: 5 min", "dissolve: 2 min"]),
            ["washing soda", "vitamin C powder"]
        );
    }

    #[test]
    fn what_the_steps_leave_open_is_not_guessed() {
        // Three materials, two steps.
        let two = ["dissolve: 5 min", "dissolve: 2 min"];
        assert_eq!(told(&[SODA, ACID, "plain salt: 5 g"], &two), ["", ""]);
        // Whether the leaves were in while it boiled is not said.
        assert_eq!(told(&[TEA], &["boil: 5 min", "steep: 20 min"]), ["", ""]);
        // Whether it was filled up first is not said either.
        assert_eq!(told(&[SODA], &["make up", "stir: 1 min"]), ["", ""]);
        // What a thing is that nobody knows, nobody knows where to put.
        let unknown = [SODA, "moon dust: 3 g", TEA];
        assert_eq!(told(&unknown, &["steep: 20 min", "dissolve: 5 min"]), ["", ""]);
    }

    #[test]
    fn two_forms_of_one_thing_keep_their_whole_names() {
        let both = [SODA, "washing soda, crystals: 20 g"];
        assert_eq!(
            told(&both, &["dissolve: 5 min"]),
            ["washing soda, anhydrous+washing soda, crystals"]
        );
    }
}
