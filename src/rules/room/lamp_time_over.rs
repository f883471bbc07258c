//! Longer under the lamp than it is safe.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::figures::time;
use crate::rules::papers::papers_of;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LAMP_TIME_OVER,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A session in which a sheet lies under the lamp longer than the lamp's safe time before it is fixed.",
    why: "Fog creeps in as grey whites, and looks like a flat developer.",
    instead: "Cover the tray, or dim the lamp or move it away.",
    threshold: Some(
        "The line's time under the lamp, up to the fixer, above the lamp's safe time: a doubt if its shortest is, a hint if only its middle is.",
    ),
    sureness: Sureness::Published,
    sources: &["ANSI IT2.26-1998, safelight conditions"],
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
```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 1.3 m
switches: red only
tested:
  date: 2031-04-02
  bare: 10 min
  pre-exposed: 8 min
```

```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
sheets: [pier]
safelight: beam-lamp
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
    light: red
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
```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 1.3 m
switches: red only
tested:
  date: 2031-04-02
  bare: 15 min
  pre-exposed: 10 min
```

```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
sheets: [pier]
safelight: beam-lamp
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, session) in context.notebook.sessions() {
        let Some(lamp) = session.safelight.get() else {
            continue;
        };
        // A test with another paper says nothing of these sheets, and that is said already.
        let tested = context.notebook.safelight(&lamp.value);
        let tested = tested.and_then(|(_, lamp)| lamp.tested.get()?.paper.get());
        let papers = papers_of(context.notebook, session);
        let other = |tested: &str| papers.iter().all(|on| on.block.id != tested);
        if !papers.is_empty() && tested.is_some_and(|tested| other(&tested.value)) {
            continue;
        }
        let under = context.facts.range(&block.id, "under-lamp");
        let safe = context.facts.range(&lamp.value, "safe-time");
        let (Some(under), Some(safe)) = (under, safe) else {
            continue;
        };
        // Where only the longest development goes over, there is still room to be careful.
        let grade = if under.low > safe.best {
            Grade::Doubt
        } else if under.best > safe.best {
            Grade::Hint
        } else {
            continue;
        };
        let message = format!(
            "a sheet lies {} under this lamp, and {} are safe",
            time(under.best, style),
            time(safe.best, style)
        );
        report.add(
            report
                .graded(grade, lamp.span, message)
                .help("cover the tray, or hang the lamp further away"),
        );
    }
}
