//! Soda poured into the acid.

use crate::facts::Bath;
use crate::finding::{Grade, slug};
use crate::notebook::Verb;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::SODA_INTO_ACID,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A step that pours the part with the soda into the part with the vitamin C.",
    why: "Poured that way the acid is in excess until half of the soda is in, and all of the gas comes: half a \
              mole for each mole of vitamin C. The other way round it is swallowed up.",
    instead: "Pour the vitamin C slowly into the dissolved soda.",
    threshold: None,
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
  - pour: [alkali, into agent]
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
    for (block, bath) in context.baths() {
        for step in &bath.recipe.steps {
            let (Verb::Pour, [poured, vessel, ..]) = (step.verb, step.parts.as_slice()) else {
                continue;
            };
            let soda = holds(bath, &poured.value, Property::Carbonate);
            let acid = holds(bath, &vessel.value, Property::Acid);
            let soda_there = holds(bath, &vessel.value, Property::Carbonate);
            if !soda || !acid || soda_there {
                continue;
            }
            if let Some(span) = place(block, [poured.span.to(vessel.span)]) {
                let message = format!(
                    "`{}` holds soda and `{}` acid: poured this way it foams to the end",
                    poured.value, vessel.value
                );
                report.add(
                    report
                        .finding(span, message)
                        .help(format!("write `pour: [{}, into {}]`", vessel.value, poured.value)),
                );
            }
        }
    }
}

fn holds(bath: &Bath, part: &str, property: Property) -> bool {
    bath.doses
        .iter()
        .any(|dose| dose.part.as_deref() == Some(part) && dose.is(property))
}
