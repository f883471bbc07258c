//! Soda and an acid together in a jar without water.

use crate::facts::Dose;
use crate::finding::{Grade, slug};
use crate::notebook::{Block, Notebook, Recipe, Role, Slot, Verb};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::hazard_place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::may_be;

pub(super) const RULE: Rule = Rule {
    name: slug::DRY_PREMIX,
    grade: Grade::Hazard,
    group: Group::Baths,
    looks_for: "Soda and vitamin C, or another acid, kept together as powders.",
    why: "Damp air or the water in soda crystals lets them react in the jar. 16 g of vitamin C can free more than a \
          litre of gas with soda, two litres with baking soda; a closed jar bursts. What is left no longer develops.",
    instead: "Keep them in two jars with two labels. They meet in the jug, the acid poured into the dissolved soda.",
    threshold: Some("Both in one part that has no water, or in a stock without water."),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: ready-jar
role: stock
makes: 1 l
add:
  washing soda, crystals: 81 g
  vitamin C powder: 10 g
keeps: 4 weeks
```
",
        ),
        Example::good(
            "
```recipe
id: soda-jar
role: stock
makes: 1 l
add:
  washing soda, crystals: 81 g
keeps: 4 weeks
```

```recipe
id: agent-jar
role: stock
makes: 1 l
add:
  vitamin C powder: 10 g
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, bath) in context.baths() {
        let recipe = &bath.recipe;
        let mut vessels: Vec<Option<&str>> = Vec::new();
        if dry_stock(recipe) {
            vessels.push(None);
        }
        for part in &recipe.parts {
            let dissolved = part.steps.iter().any(|step| step.verb == Verb::Dissolve);
            if let (true, false, Some(name)) = (part.water.is_absent(), dissolved, part.name.get()) {
                vessels.push(Some(&name.value));
            }
        }
        for vessel in vessels {
            let held: Vec<&Dose> = bath
                .doses
                .iter()
                .filter(|dose| dose.part.as_deref() == vessel)
                .collect();
            one_vessel(context.notebook, block, bath, &held, report);
        }
    }
}

fn one_vessel(
    notebook: &Notebook,
    block: &Block,
    bath: &crate::facts::Bath,
    held: &[&Dose],
    report: &mut Report,
) {
    // A liquid is water enough to see that it foams.
    let wet = held
        .iter()
        .any(|dose| dose.amount.dimension == crate::units::Dimension::Volume && dose.known.is_poured());
    if wet {
        return;
    }
    let soda = held.iter().find(|dose| {
        may_be(notebook, dose, Property::Carbonate) || may_be(notebook, dose, Property::Bicarbonate)
    });
    let acid = held.iter().find(|dose| {
        may_be(notebook, dose, Property::Acid) && soda.is_none_or(|soda| soda.name != dose.name)
    });
    if let (Some(soda), Some(acid)) = (soda, acid) {
        let message = format!(
            "`{}` and `{}` lie dry in one vessel: they make gas as soon as they find water",
            soda.name.value, acid.name.value
        );
        report.add(
            report
                .finding(
                    hazard_place(block, bath, [acid.name.span, soda.name.span]),
                    message,
                )
                .help("keep them in two jars, and pour the acid into the dissolved soda")
                .relate(soda.name.span, "this is the soda"),
        );
    }
}

/// A stock of one part into which no water goes.
fn dry_stock(recipe: &Recipe) -> bool {
    let stock = recipe.role() == Some(Role::Stock);
    let wetted = recipe.steps.iter().any(|step| {
        matches!(
            step.verb,
            Verb::Dissolve | Verb::MakeUp | Verb::Dilute | Verb::Boil
        )
    });
    stock && recipe.parts.is_empty() && matches!(recipe.water, Slot::Absent) && !wetted
}
