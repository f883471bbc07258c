//! Caustic soda or potash that meets warm water, or water that is poured onto it.

use crate::facts::{Bath, Dose};
use crate::finding::{Grade, slug};
use crate::notebook::{Part, Slot, Step, Verb, Water};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};

/// Water from here on is not cold, in °C (common practice, no source).
const WARM: f64 = 30.0;

pub(super) const RULE: Rule = Rule {
    name: slug::CAUSTIC_INTO_WARM,
    grade: Grade::Hazard,
    group: Group::Baths,
    looks_for: "Caustic soda or potash in warm water, or in a part without water into which another is poured.",
    why: "It heats the water that takes it up. Warm water, or a little water on much of the solid, boils at once and \
          throws lye into the face.",
    instead: "The solid into cold water, a little at a time, stirring, in goggles and gloves. Warm the bath afterwards.",
    threshold: Some(
        "Water above 30 °C, heated or boiled in that part; or no water in that part and another poured into it.",
    ),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: lye
role: stock
makes: 1 l
water: 700 ml at 60 °C
add:
  caustic soda: 40 g
keeps: 4 weeks
```
",
        ),
        Example::bad(
            "
```recipe
id: sage-lye
role: stock
makes: 1 l
parts:
  - name: tea
    water: 500 ml at 90 °C
    add:
      dried sage: 30 g
    steps:
      - steep: 20 min
      - strain
  - name: lye
    add:
      KOH: 6 g
steps:
  - pour: [tea, into lye]
  - make up
keeps: 1 h
```
",
        ),
        Example::good(
            "
```recipe
id: lye
role: stock
makes: 1 l
water: 700 ml at 15 °C
add:
  caustic soda: 40 g
keeps: 4 weeks
acknowledge:
  caustic-present: goggles and gloves are worn, and nobody else is in the room
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in mixtures(context) {
        let found = mixture
            .bath
            .all(Property::Caustic)
            .find_map(|dose| Some((dose, why(&mixture.bath, dose)?)));
        let Some((dose, why)) = found else { continue };
        if let Some(span) = mixture.at([dose]) {
            report.add(
                report
                    .finding(span, format!("`{}` {why}", dose.name.value))
                    .help("the solid into cold water, a little at a time; goggles and gloves"),
            );
        }
    }
}

fn why(bath: &Bath, dose: &Dose) -> Option<&'static str> {
    // A lye that is bought as one has its water.
    if dose.amount.dimension == crate::units::Dimension::Volume {
        return None;
    }
    let recipe = &bath.recipe;
    let part = dose
        .part
        .as_deref()
        .and_then(|name| recipe.parts.iter().find(|part| is_named(part, name)));
    let (water, steps) = part.map_or((&recipe.water, &recipe.steps), |part| (&part.water, &part.steps));
    if is_warm(water) || heated(steps) {
        return Some("meets warm water: it boils and throws lye into the face");
    }
    let poured_onto = |step: &Step| {
        step.verb == Verb::Pour
            && step.parts.len() > 1
            && step
                .parts
                .last()
                .is_some_and(|into| part.is_some_and(|part| is_named(part, &into.value)))
    };
    (part.is_some() && matches!(water, Slot::Absent) && recipe.steps.iter().any(poured_onto))
        .then_some("lies dry, and another part is poured onto it: it boils and throws lye into the face")
}

fn is_named(part: &Part, name: &str) -> bool {
    part.name.get().is_some_and(|own| own.value == name)
}

fn is_warm(water: &Slot<Water>) -> bool {
    let at = water.get().and_then(|water| water.at.as_ref());
    at.is_some_and(|at| at.range.high > WARM)
}

/// Whether it is heated while the solid goes in: before it is cooled again.
fn heated(steps: &[Step]) -> bool {
    steps
        .iter()
        .take_while(|step| step.verb != Verb::Cool)
        .any(|step| matches!(step.verb, Verb::Heat | Verb::Boil))
}
