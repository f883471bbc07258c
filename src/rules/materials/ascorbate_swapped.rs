//! Vitamin C and its sodium salt taken for each other.

use crate::facts::{Known, known};
use crate::finding::{Grade, slug};
use crate::notebook::Swap;
use crate::pantry::{Property, properties_of_formula};
use crate::rules::context::{Context, Report};
use crate::rules::figures::grams;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::Range;

pub(super) const RULE: Rule = Rule {
    name: slug::ASCORBATE_SWAPPED,
    grade: Grade::Doubt,
    group: Group::Materials,
    looks_for: "A batch that took sodium ascorbate in the place of vitamin C, or the reverse, weight for weight.",
    why: "Sodium ascorbate weighs 1.125 times as much for the same agent, and takes up no alkali: the pH comes \
              out about half a unit higher, 10.8 instead of 10.2.",
    instead: "Write the amount that was really weighed, and measure the pH of the batch.",
    threshold: Some("Any swap without an amount of its own."),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
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

```batch
id: may-mix
of: rosemary
made: 2031-05-02 19:00
volume: 1 l
swaps:
  vitamin C powder: sodium ascorbate
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

```batch
id: may-mix
of: rosemary
made: 2031-05-02 19:00
volume: 1 l
swaps:
  vitamin C powder: ascorbic acid
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let (notebook, style) = (context.notebook, context.notebook.settings.style);
    for (block, batch) in notebook.batches() {
        let Some(recipe) = context.facts.baths.of_batch(&block.id, batch) else {
            continue;
        };
        for swap in &batch.swaps {
            let Swap::Material { from, to } = swap else {
                continue;
            };
            let Some(dose) = recipe.doses.iter().find(|dose| dose.name.value == from.value) else {
                continue;
            };
            let taken = known(notebook, &to.value);
            let (Some(before), Some(after)) = (acid(&dose.known), acid(&taken)) else {
                continue;
            };
            if before.0 == after.0 {
                continue;
            }
            let message = format!(
                "`{}` is not `{}`: another weight for the same agent, and another pH",
                to.value, from.value
            );
            let help = match dose.grams(recipe.litres().unwrap_or(Range::exact(1.0))) {
                Some(weight) => format!(
                    "{} of `{}` stand for {} of `{}`; note the pH with `measured:`",
                    grams(weight.best * after.1 / before.1, style),
                    to.value,
                    grams(weight.best, style),
                    from.value
                ),
                None => "note the pH with `measured:`".to_owned(),
            };
            report.add(report.finding(to.span, message).help(help));
        }
    }
}

/// Whether an ascorbate still has its acid hydrogen, and its molar mass; none for anything else.
fn acid(known: &Known) -> Option<(bool, f64)> {
    let formula = match known {
        Known::Material { material, .. } => material.formula.as_ref()?,
        Known::Formula(formula) => formula,
        _ => return None,
    };
    let properties = properties_of_formula(formula);
    properties
        .contains(Property::Ascorbate)
        .then(|| (properties.contains(Property::Acid), formula.molar_mass()))
}
