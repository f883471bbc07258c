//! Sheets longer under the lamp than it is safe.

use crate::facts::Fact;
use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::walk::lit_sessions;

pub(super) const RULE: Rule = Rule {
    name: slug::UNDER_LAMP_TOO_LONG,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A session whose steps under the lamp last longer than the fog test allows.",
    why: "Fog adds up. What a sheet gets under the lamp lies under the picture as a grey veil, first where the picture is palest.",
    instead: "Dim the lamp or hang it further away, cover the trays, or do the last steps in the dark.",
    threshold: Some("Half the time at which the first edge showed in the fog test, at this distance."),
    sureness: Sureness::Published,
    sources: &[
        "ANSI IT2.26-1998, Photographic darkroom illumination, safelight conditions (title from memory, unverified)",
    ],
    examples: &[
        Example::bad(
            "
```camera
id: box
pinhole: 0.3 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 14
time: 90 s
```

```process
id: line
paper: RC
steps:
  - bath: plain-hypo
    time: 4 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
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

```safelight
id: beam
lamp: red bulb
colour: red
distance: 1.3 m
tested:
  paper: grade-2
  pre-exposed: 6 min
```

```session
id: evening
when: 2031-05-02 19:00
process: line
safelight: beam
sheets: [pier]
```
",
        ),
        Example::good(
            "
```camera
id: box
pinhole: 0.3 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 14
time: 90 s
```

```process
id: line
paper: RC
steps:
  - bath: plain-hypo
    time: 4 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
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

```safelight
id: beam
lamp: red bulb
colour: red
distance: 1.3 m
tested:
  paper: grade-2
  pre-exposed: clean to 30 min
```

```session
id: evening
when: 2031-05-02 19:00
process: line
safelight: beam
sheets: [pier]
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for lit in lit_sessions(context) {
        let (Some(under), Some(safe)) = (
            context.facts.get(&lit.session.id, "under-lamp"),
            context.facts.get(&lit.lamp.id, "safe-time"),
        ) else {
            continue;
        };
        let (Some(long), Some(allowed)) = (Fact::range(under), Fact::range(safe)) else {
            continue;
        };
        if long.best > allowed.best {
            let message = format!(
                "each sheet is {} under `{}`, which is safe for {}",
                under.text(style),
                lit.lamp.name(),
                safe.text(style)
            );
            report.add(
                report
                    .finding(lit.reference, message)
                    .help("dim the lamp or hang it further away, cover the tray, or finish in the dark")
                    .relate(lit.lamp.head, "this is the lamp and its test"),
            );
        }
    }
}
