//! A line that ends in the fixer.

use crate::finding::{Grade, slug};
use crate::notebook::StepKind;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{LineStep, lines};

pub(super) const RULE: Rule = Rule {
    name: slug::WASH_MISSING,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A line with a fixer and no washing after it.",
    why: "Hypo that stays in the paper turns the picture yellow and lets it fade within a year or two.",
    instead: "Add `- wash: tap water`: resin-coated 4 min with four changes, fibre an hour or a wash aid.",
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
    for line in lines(context) {
        let Some(fixed) = line.steps.iter().rposition(LineStep::fixes) else {
            continue;
        };
        // A rinse counts here if it says how long it is: whether that is enough is another rule's.
        let washes = |step: &LineStep<'_>| {
            let timed = !step.step.time.is_absent();
            step.step.kind == StepKind::Wash || step.is_water() && (timed || line.process.paper.is_absent())
        };
        let washed = line.steps.iter().skip(fixed + 1).any(washes);
        let (true, false, Some(fixer)) = (line.whole, washed, line.steps.get(fixed)) else {
            continue;
        };
        let dries = line.steps.iter().any(|step| step.step.kind == StepKind::Dry);
        let message = format!(
            "after `{}` the sheet {}",
            fixer.name(),
            if dries {
                "dries unwashed"
            } else {
                "is never washed"
            }
        );
        report.add(
            report
                .finding(fixer.step.span, message)
                .help("add `- wash: tap water` with `time: 4 min` for resin-coated paper, 60 min for fibre"),
        );
    }
}
