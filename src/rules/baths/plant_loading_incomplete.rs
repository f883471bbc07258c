//! A plant without how it was brewed.

use crate::facts::{Bath, Dose};
use crate::finding::{Grade, slug};
use crate::notebook::{Slot, Step, Verb, Water};
use crate::pantry::{Form, NOTEBOOK_SOURCE, Property};
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::PLANT_LOADING_INCOMPLETE,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A leaf, flower or root that goes into water without its form, the water's temperature or the time it \
              steeps.",
    why: "Fresh leaves hold four parts of water to one. Hot water draws out several times what cold does, and \
              half an hour more than five minutes. Without these nobody can repeat the bath, you included.",
    instead: "Say fresh or dried, how hot the water was, and how long it stood.",
    threshold: None,
    sureness: Sureness::Practice,
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
  - name: tea
    water: 300 ml
    add:
      rosemary, dried: 30 g
    steps:
      - strain
steps:
  - pour: [agent, into alkali]
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
  - name: tea
    water: 300 ml at 90 °C
    add:
      rosemary, dried: 30 g
    steps:
      - steep: 20 min
      - strain
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
        if !bath.complete {
            continue;
        }
        for dose in bath.all(Property::Plant) {
            let Some(material) = dose.material().filter(|_| steeped(dose)) else {
                continue;
            };
            let (water, steps) = vessel(bath, dose);
            let mut missing = Vec::new();
            // A pantry row is of one form by its figures; only a plant of the notebook's own may leave it open.
            let own = material.sources.iter().any(|source| source == NOTEBOOK_SOURCE);
            if own && material.form.is_none() {
                missing.push("whether it is fresh or dried");
            }
            let hot = water.get().is_some_and(|water| water.at.is_some())
                || steps.iter().any(|step| {
                    step.verb == Verb::Boil || step.temperature.is_some() || !step.at.is_absent()
                });
            if !hot {
                missing.push("how hot the water is");
            }
            let timed = steps.iter().any(|step| {
                matches!(step.verb, Verb::Steep | Verb::Boil) && (step.time.is_some() || step.broken)
            });
            if !timed {
                missing.push("how long it steeps");
            }
            let (Some(span), false) = (place(block, [dose.name.span]), missing.is_empty()) else {
                continue;
            };
            let message = format!("`{}` does not say {}", dose.name.value, missing.join(", nor "));
            report.add(
                report.finding(span, message).help(
                    "write `water: 500 ml at 90 °C` and a step `steep: 30 min`; name it fresh or dried",
                ),
            );
        }
    }
}

/// Whether it is a plant as such, not a juice or an instant powder.
fn steeped(dose: &Dose) -> bool {
    dose.material().is_some_and(|material| {
        let drawn_out = material.contains.iter().any(|share| share.extracted.is_some());
        let as_grown = matches!(material.form, Some(Form::Fresh | Form::Dried));
        as_grown || drawn_out || material.keeps_back.is_some()
    })
}

/// The water and steps of the part it goes into.
fn vessel<'b>(bath: &'b Bath, dose: &Dose) -> (&'b Slot<Water>, &'b [Step]) {
    let recipe = &bath.recipe;
    let part = recipe
        .parts
        .iter()
        .find(|part| dose.part.is_some() && part.name.get().map(|name| &name.value) == dose.part.as_ref());
    part.map_or((&recipe.water, &recipe.steps), |part| (&part.water, &part.steps))
}
