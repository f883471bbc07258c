//! A time computed far outside the paper's own table.

use crate::finding::{Grade, slug};
use crate::notebook::Paper;
use crate::rules::context::{Context, Report};
use crate::rules::figures::time;
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::walk::exposures;

pub(super) const RULE: Rule = Rule {
    name: slug::TIMES_BEYOND_TABLE,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A computed time of a sheet whose metered time lies far beyond either end of its paper's `times`.",
    why: "Beyond its ends the table goes on as steeply as in its last stretch. Within a stop or two that is fair; further out nobody has looked.",
    instead: "Expose a strip in such light and add the pair to `times`, or write the `time` that you gave.",
    threshold: Some(
        "Two stops: over four times the longest metered time of the table, or under a quarter of the shortest.",
    ),
    sureness: Sureness::Practice,
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
speed: 5
times:
  1 s: 1 s
  10 s: 15 s
  100 s: 4 min
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 6
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
times:
  1 s: 1 s
  10 s: 15 s
  100 s: 4 min
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 13
```
",
        ),
    ],
    check: Some(check),
};

/// How far a table is carried on, as a factor of time: two stops. Common practice, no source.
const FAR: f64 = 4.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, exposure) in exposures(context) {
        let Some(id) = exposure.paper.get().filter(|_| exposure.time.is_absent()) else {
            continue;
        };
        let Some((paper_block, paper)) = context.notebook.paper(&id.value) else {
            continue;
        };
        let computed = context.facts.range(&block.id, "time").is_some();
        let metered = context.facts.range(&block.id, "time-metered");
        let (Some((first, last)), Some(metered), true) = (ends(paper), metered, computed) else {
            continue;
        };
        let moment = exposure.when.get().map(|when| when.value.instant());
        let learnt = context.facts.learned.before(&id.value, moment);
        // Where the log tells, the table is not asked.
        if learnt.is_some_and(|lesson| lesson.tells()) {
            continue;
        }
        let (end, which) = if metered.best > FAR * last {
            (last, "ends")
        } else if metered.best < first / FAR {
            (first, "begins")
        } else {
            continue;
        };
        let message = format!(
            "the meter says {} here, and the table of `{}` {which} at {}: this time is guessed far beyond it",
            time(metered.best, style),
            paper_block.name(),
            time(end, style)
        );
        report.add(
            report
                .finding(id.span, message)
                .help("expose a strip in such light, and add its pair to `times`")
                .relate(paper_block.head, "this paper has the table"),
        );
    }
}

/// The shortest and the longest metered time of a paper's table, in s.
fn ends(paper: &Paper) -> Option<(f64, f64)> {
    let metered = || paper.times.iter().map(|(metered, _)| metered.value.range.best);
    let first = metered().reduce(f64::min)?;
    Some((first, metered().reduce(f64::max)?))
}
