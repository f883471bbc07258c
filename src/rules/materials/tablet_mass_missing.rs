//! Tablets without what is in one.

use crate::facts::{Dose, Known};
use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::is_bare_number;
use crate::units::{Dimension, Range};

pub(super) const RULE: Rule = Rule {
    name: slug::TABLET_MASS_MISSING,
    grade: Grade::Doubt,
    group: Group::Materials,
    looks_for: "A count of tablets that does not say how much of the active material one holds.",
    why: "Vitamin C tablets hold from 50 to 1000 mg.",
    instead: "Write the count and the mass from the label: `6 × 500 mg tablets`, or give `tablet` in an \
              `ingredient` block.",
    threshold: None,
    sureness: Sureness::Language,
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
      vitamin C tablets: 6 tablets
    steps:
      - dissolve: 2 min
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
      vitamin C tablets: 24 × 500 mg tablets
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
    for mixture in context.mixed {
        for dose in mixture.spoken_of(is_silent) {
            if let Some(span) = place(mixture.block, [dose.amount.span, dose.name.span]) {
                let message = format!("how much of `{}` is in one?", dose.name.value);
                report.add(
                    report
                        .finding(span, message)
                        .help("write the mass from the label, such as `6 × 500 mg tablets`"),
                );
            }
        }
    }
}

/// Whether it is counted and nothing says what one weighs.
fn is_silent(dose: &Dose) -> bool {
    let counted = dose.amount.dimension == Dimension::Count;
    let silent = matches!(dose.known, Known::Material { .. } | Known::Formula(_))
        && dose.grams(Range::exact(1.0)).is_none();
    // Effervescent tablets may not go in at all, which is told already, and `200` of a powder lacks its unit.
    counted && silent && !dose.is(Property::Effervescent) && !is_bare_number(dose)
}
