//! Fixing too short for fibre, or too long for resin-coated paper.

use crate::finding::{Grade, slug};
use crate::notebook::Base;
use crate::rules::context::{Context, Report};
use crate::rules::figures::time;
use crate::rules::papers::Bases;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{LineStep, lines, total};

pub(super) const RULE: Rule = Rule {
    name: slug::FIX_TIME,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "Fixing on fibre paper for less than five minutes in all, or on resin-coated paper for much longer than it needs.",
    why: "Fibre drinks the bath and gives it back slowly: in less than five minutes the silver salt is still \
              in it. Resin-coated paper takes it up at its cut edges when it lies too long.",
    instead: "Fibre 5 to 10 min, resin-coated 1 to 2 min, and at least twice the clearing time of your strips.",
    threshold: Some(
        "All fixing steps together: fibre below 5 min a doubt, resin-coated above three times its clearing time, at least 2 min, a hint; untested above 5 min.",
    ),
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
paper: fibre
steps:
  - bath: plain-hypo
    time: 2 min
    light: red
  - wash: tap water
    time: 40 min
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
paper: fibre
steps:
  - bath: plain-hypo
    time: 5 min
    light: red
  - wash: tap water
    time: 40 min
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
    let bases = Bases::of(context);
    for line in lines(context) {
        let (true, Some((base, sheet))) = (line.whole, bases.of_line(&line)) else {
            continue;
        };
        let fixing: Vec<&LineStep<'_>> = line.steps.iter().filter(|step| step.fixes()).collect();
        let Some(first) = fixing.first() else { continue };
        let Some(total) = total(&fixing) else { continue };
        let span = first.step.time.get().map_or(first.step.span, |time| time.span);
        let finding = match base {
            Base::Fibre if total.high < 300.0 => {
                let message = format!(
                    "{} of fixing are too short for fibre paper",
                    time(total.best, style)
                );
                report
                    .finding(span, message)
                    .help("write `time: 5 min`, or two baths of 3 min")
            }
            Base::Rc if total.low > longest(&fixing) => {
                let message = format!(
                    "{} of fixing soak into the edges of resin-coated paper",
                    time(total.best, style)
                );
                report
                    .graded(Grade::Hint, span, message)
                    .help("one to two minutes are enough, if a clearing test says so")
            }
            _ => continue,
        };
        report.add(match sheet {
            Some(sheet) => finding.relate(sheet, "this sheet was developed in it"),
            None => finding,
        });
    }
}

/// Seconds that resin-coated paper may lie in fixers: three times its clearing time where that was tested, and two minutes at
/// least; five minutes where it was not.
fn longest(fixing: &[&LineStep<'_>]) -> f64 {
    let clears = fixing.iter().filter_map(|step| step.step.clears.last());
    let slowest = clears.map(|time| time.range.high).reduce(f64::max);
    slowest.map_or(300.0, |time| (3.0 * time).max(120.0) * 1.001)
}
