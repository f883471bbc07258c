//! Washing too short for the paper.

use crate::finding::{Grade, slug};
use crate::notebook::{Base, StepKind};
use crate::rules::context::{Context, Report};
use crate::rules::figures::time;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{LineStep, lines, total};

pub(super) const RULE: Rule = Rule {
    name: slug::WASH_SHORT,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "Washing after the fixer that is too short for the base of the paper.",
    why: "Fibre gives its hypo back slowly: half an hour in running water, twelve changes of five minutes, or \
              a wash aid and twenty minutes. Resin-coated paper needs only two to four minutes, but it needs \
              those.",
    instead: "Resin-coated: 4 min. Fibre: 60 min, or a wash aid between 5 and 20 min.",
    threshold: Some(
        "All washing after the last fixer: resin-coated below 2 min; fibre below 30 min, or below 10 min with \
              a wash aid.",
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
    time: 5 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
```
",
        ),
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
    time: 20 s
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
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for line in lines(context) {
        let paper = line.process.base();
        let fixed = line.steps.iter().rposition(LineStep::fixes);
        let (Some(paper), Some(fixed), true) = (paper, fixed, line.whole) else {
            continue;
        };
        let after = || line.steps.iter().skip(fixed + 1);
        let washes: Vec<&LineStep<'_>> = after().filter(|step| step.is_water()).collect();
        let aided = after().any(|step| step.step.kind == StepKind::WashAid);
        let (Some(last), Some(washed)) = (washes.last(), total(&washes)) else {
            continue;
        };
        let (least, write) = match (paper, aided) {
            (Base::Rc, _) => (120.0, "4 min"),
            (Base::Fibre, true) => (600.0, "20 min"),
            (Base::Fibre, false) => (1800.0, "60 min"),
        };
        if washed.high >= least {
            continue;
        }
        let span = last.step.time.get().map_or(last.step.span, |time| time.span);
        let message = format!(
            "{} of washing are too short for this paper",
            time(washed.best, style)
        );
        report.add(
            report
                .finding(span, message)
                .help(format!("write `time: {write}`")),
        );
    }
}
