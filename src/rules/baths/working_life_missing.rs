//! A developer that does not say how long it keeps.

use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::rules::context::{Context, Report};
use crate::rules::place::{head, own};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::WORKING_LIFE_MISSING,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A developer without `keeps`.",
    why: "Air ends a plant or vitamin C developer within hours, and nothing shows it. Cards and batches print \
              the hour of its end only if the recipe says how long it keeps.",
    instead: "Write `keeps: 1 h`, or what your own strips showed.",
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
steps:
  - pour: [agent, into alkali]
  - make up

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
        if bath.role() == Some(Role::Developer) && own(bath) && bath.recipe.keeps.is_absent() {
            report.add(
                report
                    .finding(head(block, bath), "this developer does not say how long it keeps")
                    .help("write `keeps: 1 h`, the usual limit with vitamin C and soda"),
            );
        }
    }
}
