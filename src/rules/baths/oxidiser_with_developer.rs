//! Peroxide, permanganate or dichromate with what they destroy.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::OXIDISER_WITH_DEVELOPER,
    grade: Grade::Fault,
    group: Group::Baths,
    looks_for: "Peroxide, permanganate, dichromate or chlorine bleach in one bath with a developing agent, a sulfite \
              or a thiosulfate.",
    why: "They destroy each other: the bath heats up, foams, may spit, and does nothing afterwards. Oxygen \
              bleach powder is washing soda with peroxide in it.",
    instead: "Keep oxidisers in a bath of their own, with a wash before and after. As an alkali use plain washing \
              soda.",
    threshold: Some("Any amount of both."),
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
      sodium percarbonate: 50 g
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
  - name: boost
    water: 50 ml at 24 °C
    add:
      hydrogen peroxide 3 % w/v: 20 ml
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
    for mixture in mixtures(context) {
        let first = mixture
            .may_hold(context, Property::Peroxide)
            .or_else(|| mixture.may_hold(context, Property::Permanganate))
            .or_else(|| mixture.may_hold(context, Property::Dichromate))
            .or_else(|| mixture.may_hold(context, Property::Hypochlorite));
        let second = mixture
            .may_hold(context, Property::DevelopingAgent)
            .or_else(|| mixture.may_hold(context, Property::Thiosulfate))
            .or_else(|| mixture.may_hold(context, Property::Sulfite));
        if let (Some(first), Some(second)) = (first, second)
            && first.name != second.name
            && let Some(span) = mixture.at([first, second])
        {
            let message = format!("`{}` destroys `{}`", first.name.value, second.name.value);
            report.add(
                report
                    .finding(span, message)
                    .help("leave the oxidiser out of this bath")
                    .relate(second.name.span, "this is what it destroys"),
            );
        }
    }
}
