//! A developer without any alkali.

use crate::facts::{Bath, Dose, Known};
use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::alkali_follows;

pub(super) const RULE: Rule = Rule {
    name: slug::ALKALI_MISSING,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A developer that holds vitamin C or plants and no alkali at all.",
    why: "Vitamin C and the phenols of plants give nothing to silver until an alkali has ionised them. Without \
              it nothing appears.",
    instead: "Add washing soda: 36 g anhydrous or 97.2 g crystals in a litre with 12 g of vitamin C.",
    threshold: None,
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: only-c
role: developer
makes: 1 l
add:
  vitamin C powder: 12 g
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
        // The second of two baths has it.
        Example::good(
            "
```recipe
id: first-bath
role: developer
makes: 1 l
add:
  vitamin C powder: 25 g
use: {time: 2 min}
keeps: 1 h
```

```recipe
id: second-bath
role: developer
makes: 1 l
add:
  washing soda, anhydrous: 60 g
use: {time: 3 min}
keeps: 1 d
```

```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 2 months
waste: labelled can, to the collection point
```

```process
id: two-baths
steps:
  - {bath: first-bath, light: red}
  - {bath: second-bath, light: red}
  - {rinse: tap water, time: 1 min, light: red}
  - {bath: plain-hypo, time: 2 min, light: red}
  - {wash: tap water, time: 4 min, changes: 4, light: room}
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in context.mixed {
        let judged = mixture.judged(|bath| idle(bath).map(|_| RULE.grade));
        let (Some(_), true, Some(agent)) = (judged, mixture.own(), idle(&mixture.bath)) else {
            continue;
        };
        if alkali_follows(context, &mixture.bath) {
            continue;
        }
        let message = format!(
            "nothing makes this developer alkaline, so `{}` does nothing",
            agent.name.value
        );
        report.add(
            report
                .finding(mixture.head(), message)
                .help("add an alkali, such as `washing soda, anhydrous: 36 g` in a litre"),
        );
    }
}

/// The agent of a developer that holds nothing to ionise it.
fn idle(bath: &Bath) -> Option<&Dose> {
    let slow = |dose: &&Dose| dose.is(Property::Ascorbate) || dose.is(Property::Phenolic);
    let may = |dose: &Dose| {
        let weak = [
            Property::Alkali,
            Property::Caustic,
            Property::Sulfite,
            Property::Leavening,
            Property::Bicarbonate,
            Property::Ammonia,
        ];
        dose.properties().contains_any(&weak)
            || matches!(dose.known, Known::Unknown { .. } | Known::Ambiguous { .. })
    };
    if bath.role() != Some(Role::Developer) || bath.doses.iter().any(may) {
        return None;
    }
    bath.doses.iter().find(slow)
}
