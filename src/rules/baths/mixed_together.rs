//! Soda and vitamin C dissolved in one vessel.

use crate::facts::Dose;
use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::{Form, Property};
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::MIXED_TOGETHER,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "Soda and vitamin C in one part of a developer, so that they are dissolved together.",
    why: "It foams from the first grain, and a grain of soda that has not dissolved lies on the sheet and \
              leaves a dark spot.",
    instead: "Make two parts, each dissolved until clear, and pour the vitamin C into the soda.",
    threshold: Some(
        "Where the recipe has no second part a doubt, else a hint; a hint too where both are poured.",
    ),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: one-jug
role: developer
makes: 1 l
water: 800 ml at 24 °C
add:
  washing soda, anhydrous: 36 g
  vitamin C powder: 12 g
steps:
  - dissolve: 5 min
  - make up
keeps: 1 h
```
",
        ),
        Example::good(
            "
```recipe
id: rosemary
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 36 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      vitamin C powder: 12 g
    steps:
      - dissolve: 2 min
steps:
  - pour: [agent, into alkali]
  - make up
keeps: 1 h
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, bath) in context.baths() {
        if bath.role() != Some(Role::Developer) {
            continue;
        }
        for soda in bath.all(Property::Carbonate) {
            // A lye has no grains.
            let liquid = soda
                .material()
                .is_some_and(|material| material.form == Some(Form::Liquid));
            if liquid {
                continue;
            }
            let acid = bath.all(Property::Ascorbate).find(|dose| {
                dose.part == soda.part && dose.is(Property::Acid) && !dose.is(Property::Effervescent)
            });
            let Some(acid) = acid else { continue };
            // A part without water is told as a hazard.
            let dry = bath.recipe.parts.iter().any(|part| {
                soda.part.is_some()
                    && part.name.get().map(|name| &name.value) == soda.part.as_ref()
                    && part.water.is_absent()
            });
            if dry {
                continue;
            }
            if let Some(span) = place(block, [acid.name.span, soda.name.span]) {
                let (message, help) = words(soda, acid);
                let poured = soda.known.is_poured() && acid.known.is_poured();
                // With a second vessel for the rest it is a matter of patience, and of what is poured one of order.
                let grade = if bath.recipe.parts.len() < 2 && !poured {
                    Grade::Doubt
                } else {
                    Grade::Hint
                };
                report.add(
                    report
                        .graded(grade, span, message)
                        .help(help)
                        .relate(soda.name.span, "this is the soda"),
                );
            }
        }
    }
}

/// What is said of the two, and what to do: a powder leaves grains, what is poured does not.
fn words(soda: &Dose, acid: &Dose) -> (String, &'static str) {
    let both = format!("`{}` and `{}`", acid.name.value, soda.name.value);
    match (soda.known.is_poured(), acid.known.is_poured()) {
        (false, false) => (
            format!("{both} are dissolved in one vessel: it foams, and grains stay"),
            "write two `parts`, each with its `dissolve`, and pour the vitamin C into the soda",
        ),
        (false, true) => (
            format!("{both} go into one vessel: it foams, and grains of the soda stay"),
            "dissolve the soda until it is clear, and pour the vitamin C into it",
        ),
        (true, false) => (
            format!("{both} go into one vessel: it foams, and grains of the vitamin C stay"),
            "dissolve the vitamin C in water of its own, and pour it into the soda",
        ),
        (true, true) => (
            format!(
                "{both} are poured into one vessel, and nothing says in which order: the wrong one foams"
            ),
            "write two `parts`, and pour the vitamin C into the soda",
        ),
    }
}
