//! An amount of developing agent that nobody uses.

use crate::facts::{Bath, Dose};
use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::{Form, Property};
use crate::rules::context::{Context, Report};
use crate::rules::figures::{grams, number};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::Range;

pub(super) const RULE: Rule = Rule {
    name: slug::REDUCTANT_STRANGE,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "Vitamin C outside 2 to 60 g in a litre, instant coffee outside 10 to 80 g, dried herbs outside 20 to \
              150 g.",
    why: "Such an amount is more often a slip of the decimal point than a recipe.",
    instead: "Check the amount and its unit.",
    threshold: Some("Vitamin C 2–60 g/l, instant powders 10–80 g/l, dried plants 20–150 g/l."),
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
      vitamin C powder: 1 g
    steps:
      - dissolve: 2 min
steps:
  - pour: [agent, into alkali]
  - make up
keeps: 1 h
```
",
        ),
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
    water: 300 ml at 90 °C
    add:
      rosemary, dried: 3 g
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
    let style = context.notebook.settings.style;
    for mixture in context.mixed {
        for dose in mixture.spoken_of_in(|bath, dose| strange(bath, dose).is_some()) {
            let Some((strength, (low, high))) = strange(&mixture.bath, dose) else {
                continue;
            };
            if let Some(span) = place(mixture.block, [dose.amount.span, dose.name.span]) {
                let message = format!(
                    "{} of `{}` in a litre is far from what is used",
                    grams(strength.best, style),
                    dose.name.value
                );
                report.add(report.finding(span, message).help(format!(
                    "usual are {} to {} g in a litre: check the amount and its unit",
                    number(low, 3, style),
                    number(high, 3, style)
                )));
            }
        }
    }
}

/// The grams in a litre of an agent, and between which usual ones lie, where it is outside of them.
fn strange(bath: &Bath, dose: &Dose) -> Option<(Range, (f64, f64))> {
    if bath.role() != Some(Role::Developer) {
        return None;
    }
    let (litres, thinning) = (bath.litres()?, bath.thinning()?);
    let form = dose.material().and_then(|material| material.form);
    let plant = dose.is(Property::Plant) && dose.is(Property::Phenolic);
    // Of a liquid that holds some, a stock say, the weight tells nothing.
    let liquid = dose.material().is_some_and(|material| material.density.is_some());
    let (low, high) = if dose.is(Property::Ascorbate) && !dose.is(Property::Plant) && !liquid {
        (2.0, 60.0)
    } else if plant && dissolves_whole(dose) {
        (10.0, 80.0)
    } else if plant && form == Some(Form::Dried) {
        (20.0, 150.0)
    } else {
        return None;
    };
    let strength = dose.grams(litres)? / (litres * thinning);
    (strength.high < low || strength.low > high).then_some((strength, (low, high)))
}

/// Whether it is an instant powder: nothing is drawn out of it and nothing stays behind.
fn dissolves_whole(dose: &Dose) -> bool {
    dose.material().is_some_and(|material| {
        let left_behind =
            material.keeps_back.is_some() || material.contains.iter().any(|share| share.extracted.is_some());
        !left_behind && matches!(material.form, None | Some(Form::Powder)) && material.density.is_none()
    })
}
