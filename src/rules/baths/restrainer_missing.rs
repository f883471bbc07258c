//! Long development without a restrainer.

use crate::finding::{Grade, slug};
use crate::notebook::{Role, Support};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::RESTRAINER_MISSING,
    grade: Grade::Hint,
    group: Group::Baths,
    looks_for: "A paper developer that works longer than five minutes and holds no restrainer.",
    why: "Fog shows on paper as grey whites, and the longer a sheet develops, the more of it there is.",
    instead: "Try 5 g of plain salt or 1 g of potassium bromide in a litre, with a strip beside the old one.",
    threshold: Some("More than 5 min."),
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
use:
  for: paper
  temperature: 20 °C
  time: 8–10 min
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
use:
  for: paper
  temperature: 20 °C
  time: 4 min
keeps: 1 h
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, bath) in context.baths() {
        let usage = &bath.recipe.usage;
        let film = usage
            .support
            .get()
            .and_then(|word| Support::from_word(word.value))
            == Some(Support::Film);
        let Some(time) = usage.time.get() else { continue };
        if bath.role() != Some(Role::Developer) || film || !bath.complete || time.range.best <= 300.0 {
            continue;
        }
        if bath.first(Property::Restrainer).is_some() {
            continue;
        }
        if let Some(span) = place(block, [time.span]) {
            report.add(
                report
                    .finding(
                        span,
                        "so long in a developer without a restrainer, whites may turn grey",
                    )
                    .help("try `plain salt: 5 g` in a litre, with a strip beside the old one"),
            );
        }
    }
}
