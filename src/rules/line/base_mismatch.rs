//! A sheet on fibre paper in a line for resin-coated, or the other way round.

use std::collections::BTreeSet;

use crate::finding::{Grade, slug};
use crate::notebook::Base;
use crate::rules::context::{Context, Report};
use crate::rules::papers::papers_of;
use crate::rules::rule::{Example, Group, Rule, Sureness};

/// What the examples share.
macro_rules! page {
    () => {
        "
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

```camera
id: drum
pinhole: 0.35 mm
distance: 75 mm
format: 100×125 mm
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: pearl
light: EV 14
time: 2 min
result: right
by: MT
```

```batch
id: may-mix
of: rosemary
made: 2031-05-02 19:00
volume: 1 l
by: MT
```

```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
sheets: [pier]
```
"
    };
}

pub(super) const RULE: Rule = Rule {
    name: slug::BASE_MISMATCH,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A session that develops sheets on one base in a line that is for the other.",
    why: "Fibre drinks each bath and gives it back slowly: in a line for resin-coated paper it is fixed and washed too \
          briefly, and turns yellow. Resin-coated paper that lies as long as fibre takes up the bath at its edges.",
    instead: "Develop the sheet in a line with `paper: fibre`: at least 5 min of fixing, and an hour of washing or a wash aid.",
    threshold: Some("Fibre in a line for resin-coated a doubt, resin-coated in a line for fibre a hint."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(concat!(
            page!(),
            "
```paper
id: pearl
base: fibre
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```process
id: the-line
paper: RC
steps:
  - bath: rosemary
    time: 4 min
    light: red
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
"
        )),
        Example::good(concat!(
            page!(),
            "
```paper
id: pearl
base: RC
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```process
id: the-line
paper: RC
steps:
  - bath: rosemary
    time: 4 min
    light: red
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
"
        )),
        Example::good(concat!(
            page!(),
            "
```paper
id: pearl
base: fibre
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```process
id: the-line
paper: fibre
steps:
  - bath: rosemary
    time: 4 min
    light: red
  - rinse: tap water
    time: 30 s
    light: red
  - bath: plain-hypo
    time: 5 min
    light: red
  - wash: tap water
    time: 60 min
    light: room
```
"
        )),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let notebook = context.notebook;
    // A paper is used evening after evening: once for each line is enough.
    let mut told = BTreeSet::new();
    for (_, session) in notebook.sessions() {
        let process = session.process.get();
        let Some((line, process)) = process.and_then(|process| notebook.process(&process.value)) else {
            continue;
        };
        let (Some(wanted), Some(said)) = (process.base(), process.paper.get()) else {
            continue;
        };
        for on in papers_of(notebook, session) {
            let Some(base) = on.paper.known_base().filter(|base| *base != wanted) else {
                continue;
            };
            if !told.insert((&line.id, &on.block.id)) {
                continue;
            }
            let (grade, is, help) = match base {
                Base::Fibre => (
                    Grade::Doubt,
                    "fibre",
                    "fix fibre for 5 min and wash it for an hour, in a line with `paper: fibre`",
                ),
                Base::Rc => (
                    Grade::Hint,
                    "resin-coated",
                    "take it out of the fixer after 2 min, in a line with `paper: RC`",
                ),
            };
            let message = format!(
                "`{}` is on {is} paper, and `{}` is a line for {}",
                on.sheet.value,
                line.name(),
                match wanted {
                    Base::Fibre => "fibre",
                    Base::Rc => "resin-coated",
                }
            );
            report.add(
                report
                    .graded(grade, on.sheet.span, message)
                    .help(help)
                    .relate(said.span, "this is what the line is for"),
            );
        }
    }
}
