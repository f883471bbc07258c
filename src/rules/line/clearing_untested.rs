//! A fixer whose clearing time nobody has tested.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::lines;

pub(super) const RULE: Rule = Rule {
    name: slug::CLEARING_UNTESTED,
    grade: Grade::Hint,
    group: Group::Line,
    looks_for: "A line with a fixer and no `clears`.",
    why: "You cannot see on paper whether it is fixed. Strips in daylight show it, and show later when the \
              bath is spent.",
    instead: "Dip strips of fresh paper for 10, 20, 30, 40 and 60 s, rinse them, lay them in daylight for ten \
              minutes. Write the first that stays white as `clears`.",
    threshold: None,
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
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
  - bath: plain-hypo
    time: 2 min
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
  - bath: plain-hypo
    time: 2 min
    light: red
    clears: [25 s, 30 s]
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
        let mut fixing = line.steps.iter().filter(|step| step.fixes());
        let tested = fixing.clone().any(|step| !step.step.clears.is_empty());
        let (Some(first), true, false) = (fixing.next(), line.whole, tested) else {
            continue;
        };
        // A line that is meant to show a mistake need not be finished.
        if !line.block.expects.is_empty() {
            continue;
        }
        report.add(
            report
                .finding(
                    first.step.span,
                    "no clearing time stands here, so nobody knows when it is fixed",
                )
                .help("dip strips, lay them in daylight, and write the first white one as `clears: [30 s]`"),
        );
    }
}
