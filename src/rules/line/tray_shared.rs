//! Developer and fixer in one tray.

use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::lines;

pub(super) const RULE: Rule = Rule {
    name: slug::TRAY_SHARED,
    grade: Grade::Fault,
    group: Group::Line,
    looks_for: "A developer and a fixer that share a tray.",
    why: "A trace of hypo in the developer fogs and stains every sheet after it.",
    instead: "Give each its own tray and its own tongs, and never change them over.",
    threshold: None,
    sureness: Sureness::Practice,
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
    tray: white
  - rinse: tap water
    time: 30 s
    light: red
  - bath: plain-hypo
    time: 2 min
    light: red
    tray: white
  - wash: tap water
    time: 4 min
    light: room
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
    tray: white
  - rinse: tap water
    time: 30 s
    light: red
  - bath: plain-hypo
    time: 2 min
    light: red
    tray: grey
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
        for developer in line.steps.iter().filter(|step| step.is(Role::Developer)) {
            let Some(tray) = developer.step.tray.get() else {
                continue;
            };
            let same = line
                .steps
                .iter()
                .filter(|step| step.fixes())
                .find_map(|step| step.step.tray.get().filter(|other| other.value == tray.value));
            if let Some(other) = same {
                let message = format!(
                    "`{}` is the developer's tray: hypo in it fogs every sheet",
                    other.value
                );
                report.add(
                    report
                        .finding(other.span, message)
                        .help("give the fixer a tray and tongs of its own")
                        .relate(tray.span, "the developer lies in it here"),
                );
            }
        }
    }
}
