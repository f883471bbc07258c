//! A line that develops and never fixes.

use crate::finding::{Grade, slug};
use crate::notebook::{Role, StepKind};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{LineStep, lines};

pub(super) const RULE: Rule = Rule {
    name: slug::FIXER_MISSING,
    grade: Grade::Fault,
    group: Group::Line,
    looks_for: "A process with a developer and no fixer after it.",
    why: "The silver salt that no light struck is still in the sheet. It looks finished under the lamp, and turns grey \
          and brown within days of daylight.",
    instead: "Add a fixer after the stop and its rinse, such as 200 g of hypo crystals in a litre.",
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
keeps: 1 h
```

```process
id: short-line
paper: RC
steps:
  - bath: rosemary
    time: 4 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
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

```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```

```process
id: whole-line
paper: RC
steps:
  - bath: rosemary
    time: 4 min
    light: red
  - rinse: tap water
    time: 30 s
    light: red
  - bath: plain-hypo
    time: 2 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for line in lines(context) {
        if !line.whole {
            continue;
        }
        let Some(at) = line.steps.iter().position(|step| step.is(Role::Developer)) else {
            continue;
        };
        if line.steps.iter().skip(at).any(LineStep::fixes) {
            continue;
        }
        let Some(developer) = line.steps.get(at) else {
            continue;
        };
        let last = line
            .steps
            .iter()
            .rev()
            .find(|step| step.step.kind == StepKind::Bath)
            .map_or("the developer", |step| step.name());
        let message = format!("after `{}` nothing fixes the sheet", developer.name());
        report.add(
            report
                .finding(developer.step.span, message)
                .help(format!("add a fixer after `{last}`, with a rinse before it")),
        );
    }
}
