//! Iodised salt as a restrainer.

use crate::facts::{Bath, Dose};
use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::IODISED_SALT,
    grade: Grade::Hint,
    group: Group::Materials,
    looks_for: "More than a gram of iodised salt in a litre of developer.",
    why: "10 g of it bring 0.2 to 0.4 mg of iodine. What restrains is the chloride, so plain salt does the \
              same.",
    instead: "Either will do; write which, so that a later batch can be compared.",
    threshold: Some("More than 1 g in a litre."),
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
  - name: salt
    water: 100 ml at 24 °C
    add:
      iodised salt: 5 g
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
  - name: salt
    water: 100 ml at 24 °C
    add:
      plain salt: 5 g
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

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in context.mixed {
        for dose in mixture.spoken_of_in(restrains) {
            if let Some(span) = place(mixture.block, [dose.name.span]) {
                let message = format!(
                    "it is the chloride in `{}` that restrains, hardly the iodine",
                    dose.name.value
                );
                report.add(report.finding(span, message).help("`plain salt` does the same"));
            }
        }
    }
}

/// Whether it is iodised salt of which a litre of developer holds more than a gram.
fn restrains(bath: &Bath, dose: &Dose) -> bool {
    let much = || {
        let litres = bath.litres()?;
        Some(dose.grams(litres)?.best > litres.best)
    };
    bath.role() == Some(Role::Developer) && dose.is(Property::Iodised) && much() == Some(true)
}
