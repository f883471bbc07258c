//! Fixing shorter than twice the clearing time, or a spent fixer.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::figures::time;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{LineStep, lines, total};

pub(super) const RULE: Rule = Rule {
    name: slug::FIX_BELOW_CLEARING,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A fixer whose fixing time is below twice the latest clearing time, or whose clearing time has \
              doubled.",
    why: "When a strip has just cleared, part of the silver is still in the layer as a salt that only the \
              second half of the fixing takes out. A clearing time that has doubled says that the bath is spent.",
    instead: "Fix for twice the latest clearing time. When it has doubled, mix a fresh bath.",
    threshold: Some("Below twice the latest clearing time a doubt; latest at twice the fresh one a fault."),
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
    time: 50 s
    light: red
    clears: [25 s, 30 s]
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
    let style = context.notebook.settings.style;
    for line in lines(context) {
        let fixing: Vec<&LineStep<'_>> = line.steps.iter().filter(|step| step.fixes()).collect();
        for step in &fixing {
            let Some(latest) = step.step.clears.last() else {
                continue;
            };
            let fresh = step.step.clears.first().filter(|_| step.step.clears.len() > 1);
            if let Some(fresh) = fresh.filter(|fresh| latest.range.best >= 2.0 * fresh.range.best) {
                let message = format!(
                    "the clearing time has gone from {} to {}: this bath is spent",
                    fresh.show(style),
                    latest.show(style)
                );
                report.add(
                    report
                        .graded(Grade::Fault, latest.span, message)
                        .help("mix a fresh bath; of two, the second becomes the first"),
                );
                continue;
            }
            let Some(fixed) = total(&fixing) else { continue };
            if fixed.high < 2.0 * latest.range.best {
                let message = format!(
                    "{} of fixing are less than twice the clearing time of {}",
                    time(fixed.best, style),
                    latest.show(style)
                );
                report.add(report.finding(latest.span, message).help(format!(
                    "fix for at least {}",
                    time(2.0 * latest.range.best, style)
                )));
            }
        }
    }
}
