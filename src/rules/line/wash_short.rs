//! Washing too short for the paper.

use crate::finding::{Finding, Grade, slug};
use crate::notebook::{Base, Slot, StepKind};
use crate::rules::context::{Context, Report};
use crate::rules::figures::time;
use crate::rules::papers::Bases;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{LineStep, lines, total};
use crate::units::Style;

pub(super) const RULE: Rule = Rule {
    name: slug::WASH_SHORT,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "Washing after the fixer that is too short for the base of the paper, or in too few changes of water.",
    why: "Fibre gives its hypo back slowly: half an hour in running water, twelve changes of five minutes, or \
              a wash aid and twenty minutes. Resin-coated paper needs only two to four minutes, but it needs \
              those.",
    instead: "Resin-coated: 4 min. Fibre: 60 min, or a wash aid between 5 and 20 min. `time` is that of the whole wash, \
              however many `changes` it has.",
    threshold: Some(
        "All washing after the last fixer: resin-coated below 2 min; fibre below 30 min in running water, which is one \
              without `changes`, below 12 changes of 5 min each, or below 10 min with a wash aid. A line that says no \
              `paper` is for what sessions developed in it.",
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
  - wash: tray
    time: 30 min
    changes: 6
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
paper: fibre
steps:
  - bath: plain-hypo
    time: 5 min
    light: red
  - wash: tray
    time: 5 min
    changes: 12
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
  - wash: tray
    time: 60 min
    changes: 12
    light: room
```
",
        ),
    ],
    check: Some(check),
};

/// The longest that fibre paper needs in running water, in seconds, and how many changes of how many seconds do the same:
/// common practice, no source.
const RUNNING: f64 = 1800.0;
const CHANGES: f64 = 12.0;
const CHANGE: f64 = 300.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    let bases = Bases::of(context);
    for line in lines(context) {
        let fixed = line.steps.iter().rposition(LineStep::fixes);
        let (Some((base, sheet)), Some(fixed), true) = (bases.of_line(&line), fixed, line.whole) else {
            continue;
        };
        let after = || line.steps.iter().skip(fixed + 1);
        let washes: Vec<&LineStep<'_>> = after().filter(|step| step.is_water()).collect();
        let aided = after().any(|step| step.step.kind == StepKind::WashAid);
        let finding = match (base, aided) {
            (Base::Rc, _) => too_short(&washes, 120.0, "4 min", report, style),
            (Base::Fibre, true) => too_short(&washes, 600.0, "20 min", report, style),
            (Base::Fibre, false) if washes.iter().any(|wash| !wash.step.changes.is_absent()) => {
                too_few(&washes, report, style)
            }
            (Base::Fibre, false) => too_short(&washes, RUNNING, "60 min", report, style),
        };
        if let Some(finding) = finding {
            report.add(match sheet {
                Some(sheet) => finding.relate(sheet, "this sheet was developed in it"),
                None => finding,
            });
        }
    }
}

/// Washing that is too short in all.
fn too_short(
    washes: &[&LineStep<'_>],
    least: f64,
    write: &str,
    report: &Report,
    style: Style,
) -> Option<Finding> {
    let (last, washed) = (washes.last()?, total(washes)?);
    if washed.high >= least {
        return None;
    }
    let span = last.step.time.get().map_or(last.step.span, |time| time.span);
    let message = format!(
        "{} of washing are too short for this paper",
        time(washed.best, style)
    );
    Some(
        report
            .finding(span, message)
            .help(format!("write `time: {write}`")),
    )
}

/// Washing of fibre paper in changes of water, beside running water if there is any: each is counted as the share that it is
/// of what would be enough. A change is complete after its five minutes.
fn too_few(washes: &[&LineStep<'_>], report: &Report, style: Style) -> Option<Finding> {
    let mut done = 0.0;
    for wash in washes {
        let seconds = wash.time().map(|time| time.high);
        done += match (&wash.step.changes, seconds) {
            (Slot::Is(changes), Some(seconds)) => {
                f64::from(changes.value).min(libm::floor(seconds / CHANGE)) / CHANGES
            }
            // Without a time it can be said at least that they are too few.
            (Slot::Is(changes), None) => f64::from(changes.value) / CHANGES,
            (Slot::Absent, Some(seconds)) => seconds / RUNNING,
            (Slot::Absent | Slot::Broken, _) => return None,
        };
    }
    let last = washes.iter().rfind(|wash| wash.step.changes.get().is_some())?;
    let changes = last.step.changes.get()?;
    if done >= 1.0 - 1e-9 {
        return None;
    }
    let within = last.time().map_or_else(String::new, |seconds| {
        format!(" in {}", time(seconds.best, style))
    });
    let few = f64::from(changes.value) < CHANGES;
    let span = last
        .step
        .time
        .get()
        .filter(|_| !few)
        .map_or(changes.span, |time| time.span);
    let message = format!(
        "{} {} of water{within} are too {} for fibre paper",
        changes.value,
        if changes.value == 1 { "change" } else { "changes" },
        if few { "few" } else { "quick" },
    );
    Some(report.finding(span, message).help(
        "write `changes: 12` and `time: 60 min`, five minutes for each: the time is that of all changes together",
    ))
}
