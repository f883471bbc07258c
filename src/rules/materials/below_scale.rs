//! Less than the scale can tell.

use crate::facts::{Bath, Dose};
use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::figures::{grams, number};
use crate::rules::mixture::{Mixture, of_other_volume};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Dimension, Range};

pub(super) const RULE: Rule = Rule {
    name: slug::BELOW_SCALE,
    grade: Grade::Doubt,
    group: Group::Materials,
    looks_for: "A weighing below five steps of the scale that the notebook owns.",
    why: "A scale that shows whole grams is up to half a gram off. On 2 g that is a quarter.",
    instead: "Weigh ten times as much, dissolve it in 100 ml and take 10 ml. Or mix a larger batch.",
    threshold: Some("Less than five times `scale`."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
title: A test
zone: Europe/London
scale: 1 g
---8<---
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
  - name: restrainer
    water: 100 ml at 24 °C
    add:
      KBr: 1 g
    steps:
      - dissolve: 1 min
steps:
  - pour: [agent, into alkali]
  - make up
keeps: 1 h
```
",
        ),
        Example::good(
            "
title: A test
zone: Europe/London
scale: 0.1 g
---8<---
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
  - name: restrainer
    water: 100 ml at 24 °C
    add:
      KBr: 1 g
    steps:
      - dissolve: 1 min
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

/// Steps of the scale below which a weighing is doubted.
const STEPS: f64 = 5.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let Some(scale) = context.notebook.settings.scale.get() else {
        return;
    };
    let (step, style) = (scale.range.best, context.notebook.settings.style);
    for mixture in context.mixed.iter().chain(&of_other_volume(context)) {
        let mut by_volume: Option<(f64, &Dose)> = None;
        let mut found = Vec::new();
        for dose in mixture.spoken_of_in(|bath, dose| small(bath, dose, step).is_some()) {
            let Some(weight) = small(&mixture.bath, dose, step) else {
                continue;
            };
            if let Some(span) = place(mixture.block, [dose.amount.span]) {
                found.push((span, weight, dose));
            } else if !said_of_recipe(mixture, dose, step)
                && by_volume.is_none_or(|(least, _)| weight < least)
            {
                by_volume = Some((weight, dose));
            }
        }
        // What is little because the batch is: told once, of the least.
        let least = by_volume.zip(mixture.volume());
        found.extend(least.map(|((weight, dose), span)| (span, weight, dose)));
        for (span, weight, dose) in found {
            let message = format!(
                "{} of `{}` on a scale that steps by {}: up to {} % off",
                grams(weight, style),
                dose.name.value,
                scale.show(style),
                number(50.0 * step / weight, 2, style)
            );
            report.add(report.finding(span, message).help(format!(
                "weigh {}, dissolve it in 100 ml of water and take 10 ml of that",
                grams(weight * 10.0, style)
            )));
        }
    }
}

/// Whether the recipe has said it of the amount, under the name of what was swapped.
fn said_of_recipe(mixture: &Mixture<'_>, dose: &Dose, step: f64) -> bool {
    mixture.recipe().is_some_and(|recipe| {
        let mut own = recipe.doses.iter();
        own.any(|own| own.amount.span == dose.amount.span && small(recipe, own, step).is_some())
    })
}

/// The grams of a dose that is weighed and is less than a scale of this step can tell.
fn small(bath: &Bath, dose: &Dose, step: f64) -> Option<f64> {
    let weighed = matches!(
        dose.amount.dimension,
        Dimension::Mass | Dimension::AmountOfSubstance | Dimension::MassConcentration | Dimension::Molarity
    );
    let weight = dose.grams(bath.litres().unwrap_or(Range::exact(1.0)))?.best;
    (weighed && weight > 0.0 && weight < STEPS * step * (1.0 - 1e-9)).then_some(weight)
}
