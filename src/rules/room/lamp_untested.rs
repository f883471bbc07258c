//! A lamp that nobody has tested, or not with the paper under it.

use std::collections::BTreeSet;

use crate::finding::{Grade, slug};
use crate::notebook::StepLight;
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::papers::papers_of;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LAMP_UNTESTED,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A safelight without a fog test, or without one of the paper that a session developed under it.",
    why: "A bulb that is sold as red may let other colours through, and every lamp fogs in time. How long it \
              is safe depends on the lamp, its distance and the paper.",
    instead: "Lay coins on paper where the tray stands, once on a sheet as it comes and once on one exposed to the \
              palest grey. Write down when an edge first shows; half of that is safe.",
    threshold: Some(
        "No `tested`, at any distance; or another `paper` in it than the session's. A session with red light that names no lamp is a hint.",
    ),
    sureness: Sureness::Published,
    sources: &["ANSI IT2.26-1998, safelight conditions (half of the threshold)"],
    examples: &[
        Example::bad(
            "
```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 1.3 m
switches: red only
```
",
        ),
        Example::good(
            "
```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 1.3 m
switches: red only
tested:
  date: 2031-04-02
  bare: 30 min
  pre-exposed: 24 min
```
",
        ),
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

```paper
id: pearl
base: RC
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```paper
id: velvet
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

```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 1.3 m
switches: red only
tested:
  date: 2031-04-02
  paper: velvet
  bare: 30 min
  pre-exposed: 24 min
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

```paper
id: pearl
base: RC
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```paper
id: velvet
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

```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 1.3 m
switches: red only
tested:
  date: 2031-04-02
  paper: pearl
  bare: 30 min
  pre-exposed: 24 min
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
    never(context, report);
    on_another_paper(context, report);
    unnamed(context, report);
}

/// Lamps without a test.
fn never(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, lamp) in context.notebook.safelights() {
        if !lamp.tested.is_absent() || block.broken {
            continue;
        }
        let near = lamp
            .distance
            .get()
            .filter(|distance| distance.range.best < 1000.0);
        let message = match near {
            Some(near) => format!(
                "nobody has tested this lamp, and it hangs only {} m away",
                number(near.range.best / 1000.0, 2, style)
            ),
            None => "nobody has tested this lamp".to_owned(),
        };
        let span = lamp.lamp.get().map_or(block.head, |lamp| lamp.span);
        report.add(report.finding(span, message).help(
            "lay coins on paper under it and note under `tested:` when an edge first shows, `bare` and `pre-exposed`",
        ));
    }
}

/// Sessions with a paper that the lamp was not tested with; a test that names no paper is taken as made with hers.
fn on_another_paper(context: &Context<'_>, report: &mut Report) {
    let notebook = context.notebook;
    let mut told = BTreeSet::new();
    for (_, session) in notebook.sessions() {
        let named = session.safelight.get();
        let lamp = named.and_then(|named| Some((named, notebook.safelight(&named.value)?)));
        let Some((named, (lamp, safelight))) = lamp else {
            continue;
        };
        let Some(tested) = safelight.tested.get().and_then(|test| test.paper.get()) else {
            continue;
        };
        for on in papers_of(notebook, session) {
            if on.block.id == tested.value || !told.insert((&lamp.id, &on.block.id)) {
                continue;
            }
            let message = format!(
                "`{}` was not tested with `{}`, which `{}` is on",
                lamp.name(),
                on.block.name(),
                on.sheet.value
            );
            report.add(
                report
                    .finding(named.span, message)
                    .help("another paper may fog sooner: lay coins on a sheet of this one too")
                    .relate(tested.span, "it was tested with this one"),
            );
        }
    }
}

/// Sessions under a red lamp that is not named. Not to note it is no fault of the lamp's.
fn unnamed(context: &Context<'_>, report: &mut Report) {
    for (block, session) in context.notebook.sessions() {
        let process = session.process.get();
        let process = process.and_then(|process| context.notebook.process(&process.value));
        let Some((_, process)) = process else { continue };
        let red = process
            .steps
            .iter()
            .find(|step| step.lit() == Some(StepLight::Red));
        let (true, false, Some(red)) = (session.safelight.is_absent(), block.broken, red) else {
            continue;
        };
        let message = "sheets lay under a red lamp here, and which one is not noted";
        report.add(
            report
                .graded(Grade::Hint, block.head, message)
                .help("add `safelight:` with the id of the lamp, so that its safe time can be looked after")
                .relate(red.span, "under red light"),
        );
    }
}
