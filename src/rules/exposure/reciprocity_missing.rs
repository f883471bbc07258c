//! Long exposures on paper without reciprocity.

use std::collections::BTreeSet;

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::walk::exposures;

pub(super) const RULE: Rule = Rule {
    name: slug::RECIPROCITY_MISSING,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A computed time of more than a second on paper that does not say how long times lengthen, before the log can tell.",
    why: "Beyond about a second paper needs more than the meter says, at ten minutes often twice as much. What is assumed instead is a wide guess.",
    instead: "Write `reciprocity: 1.2` and mark it guessed; strips in bright and in dim light will tell, and the log then takes over.",
    threshold: Some("A metered time over one second."),
    sureness: Sureness::Published,
    sources: &[
        "Schwarzschild 1900, On the deviations from the law of reciprocity for bromide of silver gelatine, Astrophysical Journal 11, 89 (title from memory, unverified)",
    ],
    examples: &[
        Example::bad(
            "
```camera
id: box
pinhole: 0.3 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
speed: 5
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 14
```
",
        ),
        Example::good(
            "
```camera
id: box
pinhole: 0.3 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 14
```
",
        ),
        Example::good(
            "
```camera
id: box
pinhole: 0.3 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
speed: 5
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 14
time: 90 s
```
",
        ),
    ],
    check: Some(check),
};

/// From here on times lengthen. Common practice, no source.
const SECOND: f64 = 1.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let mut told = BTreeSet::new();
    for (block, exposure) in exposures(context) {
        let Some(id) = exposure.paper.get().filter(|_| exposure.time.is_absent()) else {
            continue;
        };
        let Some((paper_block, paper)) = context.notebook.paper(&id.value) else {
            continue;
        };
        if !paper.reciprocity.is_absent() || !paper.times.is_empty() || told.contains(id.value.as_str()) {
            continue;
        }
        let metered = context.facts.range(&block.id, "time-metered");
        let moment = exposure.when.get().map(|when| when.value.instant());
        let learnt = context.facts.learned.before(&id.value, moment);
        if metered.is_none_or(|metered| metered.best <= SECOND) || learnt.is_some_and(|lesson| lesson.tells())
        {
            continue;
        }
        told.insert(id.value.as_str());
        report.add(
            report
                .finding(
                    paper_block.head,
                    format!(
                        "`{}` does not say how long times lengthen, and `{}` is one",
                        paper_block.name(),
                        block.name()
                    ),
                )
                .help("write `reciprocity: 1.2` and mark it guessed; strips will tell")
                .relate(block.head, "this exposure needs it"),
        );
    }
}
