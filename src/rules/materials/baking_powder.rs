//! Baking powder in a bath.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::BAKING_POWDER,
    grade: Grade::Fault,
    group: Group::Materials,
    looks_for: "Baking powder, or flour that raises itself, in any bath.",
    why: "It is baking soda with its own acid and starch. It is neither an alkali nor a reagent: the bath \
              foams and turns to glue.",
    instead: "Use washing soda, which holds no acid.",
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
      baking powder: 36 g
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
    for mixture in context.mixed {
        for dose in mixture.spoken_of(|dose| dose.is(Property::Leavening)) {
            if let Some(span) = place(mixture.block, [dose.name.span]) {
                let message = format!(
                    "`{}` holds its own acid and starch: it is no alkali",
                    dose.name.value
                );
                report.add(
                    report
                        .finding(span, message)
                        .help("use `washing soda, anhydrous` or `washing soda, crystals`"),
                );
            }
        }
    }
}
