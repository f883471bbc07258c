//! Waste without the answer of those who run the drain.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{LineStep, lines};
use crate::source::Span;

pub(super) const RULE: Rule = Rule {
    name: slug::DRAIN_UNASKED,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A notebook whose `drain` lacks who was asked, when, or the answer; or which fixes sheets and has no \
              `drain` at all.",
    why: "What may go down a drain differs from one place to the next, and for home, school and business. Only \
              a person can ask. Nothing is assumed here.",
    instead: "Ask the water or waste authority and fill in `asked`, `on` and `answer` in `trayside.yaml`.",
    threshold: Some(
        "An unfinished `drain` is a doubt. None at all is a hint, once there is a session with a fixer.",
    ),
    sureness: Sureness::Published,
    sources: &["EPA 530-K-99-002, photo processing waste (rules differ by place)"],
    examples: &[
        Example::bad(
            "
title: A test
zone: Europe/London
drain:
  asked: Harbour Water Office
---8<---
```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```
",
        ),
        Example::good(
            "
title: A test
zone: Europe/London
drain:
  asked: Harbour Water Office
  on: 2031-03-03
  answer: Used fixer to the collection point.
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

const HELP: &str = "ask the water or waste authority, and write `asked`, `on` and `answer` under `drain`";

fn check(context: &Context<'_>, report: &mut Report) {
    let settings = &context.notebook.settings;
    if settings.drain.is_broken() {
        return;
    }
    let Some(drain) = settings.drain.get() else {
        if let Some(span) = first_fixing(context) {
            report.add(
                report
                    .graded(
                        Grade::Hint,
                        span,
                        "this session used a fixer, and no authority was asked about its waste",
                    )
                    .help(HELP),
            );
        }
        return;
    };
    let missing: Vec<&str> = [
        ("who was asked", drain.asked.is_absent()),
        ("when", drain.on.is_absent()),
        ("the answer", drain.answer.is_absent()),
    ]
    .into_iter()
    .filter_map(|(what, absent)| absent.then_some(what))
    .collect();
    let written = [
        drain.asked.get().map(|asked| asked.span),
        drain.on.get().map(|on| on.span),
        drain.answer.get().map(|answer| answer.span),
    ];
    if let (false, Some(span)) = (missing.is_empty(), written.into_iter().flatten().next()) {
        let message = format!("the word of the drain's owner lacks {}", missing.join(" and "));
        report.add(report.finding(span, message).help(HELP));
    }
}

/// The process of the first session with a fixer.
fn first_fixing(context: &Context<'_>) -> Option<Span> {
    let lines = lines(context);
    context.notebook.sessions().find_map(|(_, session)| {
        let process = session.process.get()?;
        let line = lines.iter().find(|line| line.block.id == process.value)?;
        line.steps.iter().any(LineStep::fixes).then_some(process.span)
    })
}
