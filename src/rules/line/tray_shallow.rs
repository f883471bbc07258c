//! Too little bath for the tray.

use std::collections::BTreeSet;

use crate::facts::Bath;
use crate::finding::{Grade, slug};
use crate::notebook::TrayOwned;
use crate::rules::context::{Context, Report};
use crate::rules::figures::{number, volume};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{Line, lines};
use crate::source::Span;

pub(super) const RULE: Rule = Rule {
    name: slug::TRAY_SHALLOW,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A bath that stands less than 12 mm deep in its tray.",
    why: "A sheet that is not covered at once comes out with edges and clouds.",
    instead: "Pour as much as the help says, or take a smaller tray.",
    threshold: Some("Below 12 mm over the tray's inside area."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
title: A test
zone: Europe/London
trays:
  - name: white
    inside: 220×270 mm
    depth: 45 mm
---8<---
```recipe
id: rosemary
role: developer
makes: 0.6 l
parts:
  - name: alkali
    water: 200 ml at 24 °C
    add:
      washing soda, anhydrous: 21.6 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 100 ml at 24 °C
    add:
      vitamin C powder: 7.2 g
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
    tray: white
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
",
        ),
        Example::good(
            "
title: A test
zone: Europe/London
trays:
  - name: white
    inside: 220×270 mm
    depth: 45 mm
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
    tray: white
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
",
        ),
    ],
    check: Some(check),
};

/// Millimetres of bath that cover a sheet safely (practice).
const DEPTH: f64 = 12.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let lines = lines(context);
    for line in &lines {
        for step in &line.steps {
            let (Some(tray), Some(bath)) = (step.step.tray.get(), step.bath) else {
                continue;
            };
            let (Some(area), Some(litres)) = (area_of(context, &tray.value), bath.working_litres()) else {
                continue;
            };
            if shallow(litres.best, area) {
                let thinning = bath.thinning().map_or(1.0, |thinning| thinning.best);
                let filled = (litres.best, thinning, area);
                one(context, &bath.id, filled, tray.span, report);
            }
        }
    }
    batches(context, &lines, report);
}

/// Batches that were mixed smaller than their recipe, each once.
fn batches(context: &Context<'_>, lines: &[Line<'_>], report: &mut Report) {
    let mut told = BTreeSet::new();
    for (_, session) in context.notebook.sessions() {
        let line = session
            .process
            .get()
            .and_then(|process| lines.iter().find(|line| line.block.id == process.value));
        for (recipe, reference) in &session.baths {
            let step = line.and_then(|line| line.steps.iter().find(|step| step.name() == recipe.value));
            let (Some(step), Some((_, batch))) = (step, context.notebook.batch(&reference.value)) else {
                continue;
            };
            let area = step
                .step
                .tray
                .get()
                .and_then(|tray| area_of(context, &tray.value));
            let whole = step.bath.and_then(Bath::working_litres);
            let thinning = step.bath.and_then(Bath::thinning);
            let (Some(area), Some(whole), Some(volume), Some(thinning)) =
                (area, whole, batch.volume.get(), thinning)
            else {
                continue;
            };
            let litres = volume.range.best * thinning.best;
            // Where the recipe itself makes too little, the line has said so.
            if shallow(litres, area) && !shallow(whole.best, area) && told.insert(&reference.value) {
                let filled = (litres, thinning.best, area);
                one(context, &reference.value, filled, volume.span, report);
            }
        }
    }
}

fn shallow(litres: f64, area: f64) -> bool {
    litres * 1e6 / area < DEPTH * 0.995
}

/// Litres in the tray, how many of them one that is mixed makes, and the tray's area.
type Filled = (f64, f64, f64);

fn one(context: &Context<'_>, what: &str, filled: Filled, span: Span, report: &mut Report) {
    let style = context.notebook.settings.style;
    let (litres, thinning, area) = filled;
    let message = format!(
        "{} of `{what}` stand {} mm deep in the tray",
        volume(litres, style),
        number(litres * 1e6 / area, 2, style)
    );
    let enough = DEPTH * area / 1e6;
    let mixed = if thinning > 1.0 {
        format!(
            " ({} as it is mixed, the rest water)",
            volume(enough / thinning, style)
        )
    } else {
        String::new()
    };
    report.add(report.finding(span, message).help(format!(
        "pour {}{mixed} for {} mm of depth, or take a smaller tray",
        volume(enough, style),
        number(DEPTH, 2, style)
    )));
}

fn area_of(context: &Context<'_>, tray: &str) -> Option<f64> {
    let mut trays = context.notebook.settings.trays.iter();
    let owned = trays.find(|owned| owned.name.get().is_some_and(|name| name.value == tray))?;
    area(owned)
}

/// Square millimetres.
fn area(tray: &TrayOwned) -> Option<f64> {
    Some(tray.inside.get()?.value.area().square_millimetres())
}
