//! A sheet that was developed before it was exposed.

use jiff::SignedDuration;

use crate::finding::{Grade, slug};
use crate::notebook::Body;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::DEVELOPED_BEFORE_EXPOSED,
    grade: Grade::Fault,
    group: Group::Room,
    looks_for: "A session with a sheet whose exposure is dated after it.",
    why: "One of the two dates is wrong, or it is another sheet. What is learnt of the paper, and the age of each bath, follow the dates.",
    instead: "Correct the date, or name the sheet that was developed.",
    threshold: Some(
        "More than twelve hours after the session began, or after its day where no time is written: within these a sheet may be exposed while the session lasts.",
    ),
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
when: 2031-05-04 11:20
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

/// A session that lasts longer than this is not one (common practice, no source).
const LONGEST: i64 = 12;
const DAY: i64 = 24;

fn check(context: &Context<'_>, report: &mut Report) {
    for (_, session) in context.notebook.sessions() {
        let Some(began) = session.when.get() else {
            continue;
        };
        let hours = if began.value.timed { LONGEST } else { DAY };
        let Ok(ended) = began.value.at.checked_add(SignedDuration::from_hours(hours)) else {
            continue;
        };
        for sheet in &session.sheets {
            let when = match context.notebook.block(&sheet.value).map(|block| &block.body) {
                Some(Body::Exposure(exposure)) => exposure.when.get(),
                Some(Body::Print(print)) => print.when.get(),
                _ => None,
            };
            let Some(exposed) = when.filter(|exposed| exposed.value.at > ended) else {
                continue;
            };
            let message = format!(
                "`{}` was exposed {}, after this session of {}",
                sheet.value, exposed.value.written, began.value.written
            );
            report.add(
                report
                    .finding(sheet.span, message)
                    .help("correct one of the dates, or name the sheet that was developed")
                    .relate(exposed.span, "its exposure"),
            );
        }
    }
}
