//! More people than a line of trays has room for.

use crate::finding::{Grade, slug};
use crate::notebook::{Process, Role};
use crate::rules::context::{Context, Report};
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
    places: 4
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
    };
}

pub(super) const RULE: Rule = Rule {
    name: slug::LINE_CROWDED,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A session with more people than can stand at one line of trays.",
    why: "A queue in the dark jostles, drips and waits, while the developer ages in its tray.",
    instead: "Let them come to the trays in turns, and load, look or write meanwhile; or set up a second line. If that is the plan, say so under `acknowledge`.",
    threshold: Some("More than four people, or more than the developer has `places` where those are more."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(concat!(
            page!(),
            "
```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
sheets: [pier]
people: 9
each: 1
```
"
        )),
        Example::good(concat!(
            page!(),
            "
```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
sheets: [pier]
people: 4
each: 2
```
"
        )),
    ],
    check: Some(check),
};

/// People at one line of trays: common practice, no source.
const MOST: u32 = 4;

fn check(context: &Context<'_>, report: &mut Report) {
    for (_, session) in context.notebook.sessions() {
        let process = session.process.get();
        let process = process.and_then(|process| context.notebook.process(&process.value));
        let (Some(people), Some((_, process))) = (session.people.get(), process) else {
            continue;
        };
        let room = places(context, process).max(MOST);
        if people.value <= room {
            continue;
        }
        let message = format!("{} people at a line of trays for {room}", people.value);
        report.add(
            report.finding(people.span, message).help(
                "let them come in turns, or set up a second line; say under `acknowledge` how they wait",
            ),
        );
    }
}

/// Sheets that the developer's tray holds at once, where the line says so.
fn places(context: &Context<'_>, process: &Process) -> u32 {
    let develops = |id: &str| {
        let bath = context.facts.baths.get(id);
        bath.and_then(crate::facts::Bath::role) == Some(Role::Developer)
    };
    let steps = process.steps.iter();
    let developers = steps.filter(|step| step.bath.get().is_some_and(|bath| develops(&bath.value)));
    let places = developers.filter_map(|step| step.places.get());
    places.map(|places| places.value).max().unwrap_or(0)
}
