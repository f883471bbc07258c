//! A packet that runs out in a session to come.

use std::collections::BTreeMap;

use crate::facts::{Bath, Shelf};
use crate::finding::{Grade, slug};
use crate::notebook::{Exposure, Notebook, Process, Session};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Dimension, Range, show};

pub(super) const RULE: Rule = Rule {
    name: slug::SHELF_SHORT,
    grade: Grade::Hint,
    group: Group::Materials,
    looks_for: "A session to come whose baths, each mixed once, take more from a packet than is `left` in it.",
    why: "It shows in the evening, with the leaves steeped and the room dark, and shops are closed then.",
    instead: "Buy another packet and write what is `left`, mix less, or name the batch that is mixed already.",
    threshold: Some(
        "Counted is a session of which nothing has happened: no event, no real time, no sheet with a result. Baths \
         that a batch is named for are not mixed again.",
    ),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
title: A test
zone: Europe/London
shelf:
  - material: sodium sulfite
    pack: 250 g
    left: 15 g
---8<---
```recipe
id: sulfite-aid
role: wash aid
makes: 1 l
water: 800 ml
add:
  sodium sulfite: 20 g
keeps: 1 d
```

```process
id: washing-again
steps:
  - wash aid: sulfite-aid
    time: 2 min
  - wash: tap water
    time: 30 min
```

```camera
id: drum
pinhole: 0.35 mm
distance: 75 mm
format: 60×90 mm
```

```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.15
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: grade-2
light: EV 14
```

```session
id: next-week
when: 2031-05-09 19:00
process: washing-again
sheets: pier
```
",
        ),
        Example::good(
            "
title: A test
zone: Europe/London
shelf:
  - material: sodium sulfite
    pack: 250 g
    left: 25 g
---8<---
```recipe
id: sulfite-aid
role: wash aid
makes: 1 l
water: 800 ml
add:
  sodium sulfite: 20 g
keeps: 1 d
```

```process
id: washing-again
steps:
  - wash aid: sulfite-aid
    time: 2 min
  - wash: tap water
    time: 30 min
```

```camera
id: drum
pinhole: 0.35 mm
distance: 75 mm
format: 60×90 mm
```

```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.15
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: grade-2
light: EV 14
```

```session
id: next-week
when: 2031-05-09 19:00
process: washing-again
sheets: pier
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let notebook = context.notebook;
    let style = notebook.settings.style;
    let shelf = Shelf::of(notebook);
    for (_, session) in notebook.sessions() {
        let Some(name) = session.process.get().filter(|_| to_come(session, notebook)) else {
            continue;
        };
        let Some((_, process)) = notebook.process(&name.value) else {
            continue;
        };
        let mut takes: BTreeMap<usize, (Range, Dimension)> = BTreeMap::new();
        for bath in to_mix(context, session, process) {
            let Some(litres) = bath.litres() else { continue };
            for dose in &bath.doses {
                if let (Some(at), Some((range, dimension))) = (shelf.place(dose), shelf.takes(dose, litres)) {
                    let held = takes.entry(at).or_insert((Range::ZERO, dimension));
                    if held.1 == dimension {
                        held.0 = held.0 + range;
                    }
                }
            }
        }
        for (at, (needs, dimension)) in takes {
            let Some(packet) = shelf.packets().get(at) else {
                continue;
            };
            let (Some(left), Some(there)) = (packet.packet.left.get(), packet.there_in(dimension)) else {
                continue;
            };
            if there.high >= needs.low {
                continue;
            }
            let text = |range: Range| match dimension {
                Dimension::Count => format!("{} of them", range.best.ceil()),
                _ => show(range, dimension, Digits::Significant(3), style),
            };
            let message = format!(
                "`{}` runs out: this session takes {}, and {} is left",
                packet.name,
                text(needs),
                left.show(style)
            );
            let short = text(Range::exact(needs.best - there.best));
            report.add(
                report
                    .finding(name.span, message)
                    .relate(left.span, "this is what is left")
                    .help(format!(
                        "{short} is missing: buy a packet, mix less, or name the batch that is mixed"
                    )),
            );
        }
    }
}

/// Whether nothing has happened in it yet, as far as is noted.
fn to_come(session: &Session, notebook: &Notebook) -> bool {
    let judged = |id: &str| {
        notebook
            .exposure(id)
            .is_some_and(|(_, sheet): (_, &Exposure)| !sheet.result.is_absent())
    };
    session.events.is_empty()
        && session.times.is_empty()
        && !session.sheets.iter().any(|sheet| judged(&sheet.value))
}

/// The line's baths, each once, without those that stand mixed.
fn to_mix<'n>(context: &Context<'n>, session: &Session, process: &Process) -> Vec<&'n Bath> {
    let mixed = |id: &str| session.baths.iter().any(|(recipe, _)| recipe.value == id);
    let steps = process.steps.iter().filter_map(|step| step.bath.get());
    let mut ids: Vec<&str> = steps
        .map(|bath| bath.value.as_str())
        .filter(|id| !mixed(id))
        .collect();
    ids.sort_unstable();
    ids.dedup();
    ids.into_iter()
        .filter_map(|id| context.facts.baths.get(id))
        .collect()
}
