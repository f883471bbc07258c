//! One sheet that a session lists twice, or that two sessions develop.

use std::collections::BTreeMap;

use crate::finding::{Grade, slug};
use crate::notebook::{Body, Notebook, Role};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::lines;
use crate::source::Span;

pub(super) const RULE: Rule = Rule {
    name: slug::SHEET_LISTED_TWICE,
    grade: Grade::Fault,
    group: Group::Room,
    looks_for: "A sheet that stands twice in one session, or in two sessions whose lines both begin with a developer.",
    why: "Each time it counts as a sheet more through the baths, and its picture would have come up in two trays. A sheet that was fixed has nothing left to develop.",
    instead: "List every sheet once, where it was developed. A row of sheets from one exposure is written with `bracket`.",
    threshold: Some(
        "Twice in a session a fault; in a second session that develops a doubt, unless a bracket made several sheets of it.",
    ),
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
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

```camera
id: drum
pinhole: 0.35 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: grade-2
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
sheets: [pier, pier]
```
",
        ),
        Example::good(
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

```camera
id: drum
pinhole: 0.35 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: grade-2
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
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let notebook = context.notebook;
    let lines = lines(context);
    // Sheets that went into a developer first, with the place where they stand.
    let mut developed: BTreeMap<&str, Span> = BTreeMap::new();
    for (_, session) in notebook.sessions() {
        let line = session
            .process
            .get()
            .and_then(|process| lines.iter().find(|line| line.block.id == process.value));
        let develops = line
            .and_then(|line| line.steps.iter().find_map(|step| step.bath))
            .is_some_and(|bath| bath.role() == Some(Role::Developer));
        let mut here: BTreeMap<&str, Span> = BTreeMap::new();
        for sheet in &session.sheets {
            let id = sheet.value.as_str();
            if let Some(first) = here.get(id) {
                report.add(
                    report
                        .finding(sheet.span, format!("`{id}` stands in this session twice"))
                        .help("take one out: each counts as a sheet through the baths")
                        .relate(*first, "the first time"),
                );
                continue;
            }
            here.insert(id, sheet.span);
            if !develops || several(notebook, id) {
                continue;
            }
            if let Some(first) = developed.get(id) {
                report.add(
                    report
                        .graded(
                            Grade::Doubt,
                            sheet.span,
                            format!("`{id}` was developed in another session as well"),
                        )
                        .help("a sheet is developed once: name the sheet that was meant")
                        .relate(*first, "the other session"),
                );
            } else {
                developed.insert(id, sheet.span);
            }
        }
    }
}

/// Whether an exposure is several sheets, which need not be developed together.
fn several(notebook: &Notebook, id: &str) -> bool {
    let body = notebook.block(id).map(|block| &block.body);
    matches!(body, Some(Body::Exposure(exposure)) if !exposure.bracket.is_absent())
}
