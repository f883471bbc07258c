//! Fizzing or chewable vitamin C.

use crate::facts::Dose;
use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::EFFERVESCENT_TABLETS,
    grade: Grade::Fault,
    group: Group::Materials,
    looks_for: "Effervescent tablets in a bath, or chewable ones with sugar.",
    why: "Effervescent tablets bring more acid and baking soda than vitamin C, in amounts that no label gives. \
              The acid eats the soda of the bath, and it foams over. Chewable ones bring sugar, flavour and \
              colour.",
    instead: "Use plain vitamin C powder, ascorbic acid without filler.",
    threshold: Some("Effervescent ones are a fault, sweetened ones a doubt."),
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
      effervescent vitamin C tablets: 6 × 1000 mg tablets
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
        let speaks = |dose: &Dose| {
            dose.is(Property::Effervescent) || dose.is(Property::Ascorbate) && dose.is(Property::Sugar)
        };
        for dose in mixture.spoken_of(speaks) {
            let (grade, why) = if dose.is(Property::Effervescent) {
                (
                    Grade::Fault,
                    "brings acid and baking soda of its own, in amounts that no label gives",
                )
            } else {
                (
                    Grade::Doubt,
                    "brings sugar and flavour, in amounts that no label gives",
                )
            };
            if let Some(span) = place(mixture.block, [dose.name.span]) {
                let message = format!("`{}` {why}", dose.name.value);
                report.add(
                    report
                        .graded(grade, span, message)
                        .help("use `vitamin C powder`, plain ascorbic acid"),
                );
            }
        }
    }
}
