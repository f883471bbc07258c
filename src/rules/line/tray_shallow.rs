//! Too little bath for the tray.

use crate::finding::{Grade, slug};
use crate::notebook::TrayOwned;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::lines;
use crate::rules::substance::{number, volume};

pub(super) const RULE: Rule = Rule {
    name: slug::TRAY_SHALLOW,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A bath that stands less than 12 mm deep in its tray.",
    why: "A sheet that is not covered at once comes out with edges and clouds.",
    instead: "Mix more, or take a smaller tray.",
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
    let style = context.notebook.settings.style;
    for line in lines(context) {
        for step in &line.steps {
            let (Some(tray), Some(bath)) = (step.step.tray.get(), step.bath) else {
                continue;
            };
            let owned = context
                .notebook
                .settings
                .trays
                .iter()
                .find(|owned| owned.name.get().is_some_and(|name| name.value == tray.value));
            let (Some(area), Some(litres)) = (owned.and_then(area), bath.litres()) else {
                continue;
            };
            let deep = litres.best * 1e6 / area;
            if deep >= DEPTH * 0.995 {
                continue;
            }
            let message = format!(
                "{} of `{}` stand {} mm deep in this tray",
                volume(litres.best, style),
                bath.id,
                number(deep, 2, style)
            );
            report.add(report.finding(tray.span, message).help(format!(
                "mix at least {}, or take a smaller tray",
                volume(DEPTH * area / 1e6, style)
            )));
        }
    }
}

/// Square millimetres.
fn area(tray: &TrayOwned) -> Option<f64> {
    let inside = tray.inside.get()?;
    Some(inside.value.width.millimetres() * inside.value.height.millimetres())
}
