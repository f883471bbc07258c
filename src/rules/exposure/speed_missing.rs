//! Paper without a camera speed where a time is to be computed.

use std::collections::BTreeSet;

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::walk::exposures;

pub(super) const RULE: Rule = Rule {
    name: slug::SPEED_MISSING,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "An exposure that leaves its time out, on paper of which neither the notebook says the camera speed nor the log.",
    why: "Without a speed no time can be computed, and the place for it on card and page stays empty.",
    instead: "Write `speed: 6` with `evidence: guessed` at the paper, make a strip from it, and let the log take over.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
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
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let mut told = BTreeSet::new();
    for (block, exposure) in exposures(context) {
        let Some(paper) = exposure.paper.get().filter(|_| exposure.time.is_absent()) else {
            continue;
        };
        let Some((paper_block, body)) = context.notebook.paper(&paper.value) else {
            continue;
        };
        let strip = exposure.strip.get().is_some();
        if strip || exposure.light.get().is_none() || !body.speed.is_absent() {
            continue;
        }
        if context.facts.range(&block.id, "time").is_some() {
            continue;
        }
        if told.insert(paper.value.as_str()) {
            let message = format!(
                "no time can be computed: `{}` says no camera speed",
                paper_block.name()
            );
            report.add(
                report
                    .finding(paper.span, message)
                    .help("write `speed: 6` there and mark it guessed, then make a strip")
                    .relate(paper_block.head, "this is the paper"),
            );
        }
    }
}
