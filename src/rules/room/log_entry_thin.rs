//! A sheet in the log that cannot teach anything.

use std::collections::BTreeSet;

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LOG_ENTRY_THIN,
    grade: Grade::Hint,
    group: Group::Room,
    looks_for: "An exposure with a result that lacks the light, how long it was exposed, who made it, or a session \
              that developed it.",
    why: "A result means something only beside what led to it. Next month nobody remembers.",
    instead: "Fill in what you know. What was not noted stays empty: it is never a zero.",
    threshold: None,
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```camera
id: drum
pinhole: 0.35 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: grade-2
time: 2 min
result: right
```
",
        ),
        Example::good(
            "
title: A test
zone: Europe/London
drain:
  asked: Harbour Water Office
  on: 2031-03-03
  answer: Used fixer to the collection point.
---8<---
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
id: the-line
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

```camera
id: drum
pinhole: 0.35 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: grade-2
light: EV 14
time: 2 min
result: right
by: MT
```

```batch
id: may-mix
of: rosemary
made: 2031-05-02 19:00
volume: 1 l
by: MT
```

```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
sheets: [pier]
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let notebook = context.notebook;
    let developed: BTreeSet<&str> = notebook
        .sessions()
        .flat_map(|(_, session)| &session.sheets)
        .map(|sheet| sheet.value.as_str())
        .collect();
    // A notebook without sessions does not keep them.
    let keeps_sessions = !developed.is_empty();
    // Who works alone need not sign.
    let signs = notebook.exposures().any(|(_, exposure)| !exposure.by.is_absent());
    for (block, exposure) in notebook.exposures() {
        if exposure.result.get().is_none() || block.broken {
            continue;
        }
        let timed =
            !exposure.time.is_absent() || !exposure.strip.is_absent() || !exposure.bracket.is_absent();
        let missing: Vec<&str> = [
            ("the light", exposure.light.is_absent()),
            ("how long", !timed && exposure.light.is_absent()),
            ("who made it", signs && exposure.by.is_absent()),
            (
                "the session that developed it",
                keeps_sessions && !developed.contains(block.id.as_str()),
            ),
        ]
        .into_iter()
        .filter_map(|(what, absent)| absent.then_some(what))
        .collect();
        if missing.is_empty() {
            continue;
        }
        report.add(
            report
                .finding(
                    block.head,
                    format!(
                        "this sheet has a result, and these were not noted: {}",
                        missing.join(", ")
                    ),
                )
                .help("fill in what you know; what was not noted stays empty"),
        );
    }
}
