//! A developer with less to give than the sheets of a session take.

use crate::chem::electrons;
use crate::facts::load;
use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::REDUCTANT_SHORT,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A session whose developer holds less than ten times the electrons that its sheets take.",
    why: "The agent gives electrons to silver, and most of it is eaten by air. Where the silver alone would take a tenth of it, the last sheets come out thin.",
    instead: "Mix more of the bath, or one with more of the agent.",
    threshold: Some(
        "Electrons of all agents below ten times those for half of the silver in the sheets planned.",
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
      vitamin C powder: 2.5 g
    steps:
      - dissolve: 2 min
steps:
  - pour: [agent, into alkali]
  - make up
keeps: 1 h
```
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 10 g
keeps: 12 h
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
    time: 15 s
    light: red
  - bath: weak-stop
    time: 30 s
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
volume: 0.4 l
by: MT
discarded: 2031-05-02 20:00
```

```batch
id: may-stop
of: weak-stop
made: 2031-05-02 19:00
volume: 1 l
by: MT
discarded: 2031-05-02 21:00
```

```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
  weak-stop: may-stop
sheets: [pier]
people: 4
each: 38
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
id: weak-stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 10 g
keeps: 12 h
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
    time: 15 s
    light: red
  - bath: weak-stop
    time: 30 s
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
discarded: 2031-05-02 20:00
```

```batch
id: may-stop
of: weak-stop
made: 2031-05-02 19:00
volume: 1 l
by: MT
discarded: 2031-05-02 21:00
```

```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
  weak-stop: may-stop
sheets: [pier]
people: 2
each: 5
```
",
        ),
    ],
    check: Some(check),
};

/// How often the agent should cover what the silver takes (rule of thumb).
const TIMES: f64 = 10.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (_, session) in context.notebook.sessions() {
        for (recipe, batch) in &session.baths {
            let Some(bath) = context.facts.baths.get(&recipe.value) else {
                continue;
            };
            let (Some(Role::Developer), Some(thinning)) = (bath.role(), bath.thinning()) else {
                continue;
            };
            let Some((_, mixed)) = context.notebook.batch(&batch.value) else {
                continue;
            };
            let chemistry = &context.facts.chemistry;
            let (Ok(solution), Some(volume)) = (
                chemistry.of_batch(&batch.value, &recipe.value),
                mixed.volume.get(),
            ) else {
                continue;
            };
            let load = load(context.notebook, session);
            let (Some(one), Some(makes)) = (&load.one, solution.composition.litres) else {
                continue;
            };
            let held = electrons(&solution.composition.at(|range| range.high)).moles();
            let held = held * volume.range.best * thinning.best / makes.best;
            let needed = one.electrons().best * load.gone.counted_in(Some(one));
            if held >= TIMES * needed || held <= 0.0 {
                continue;
            }
            let message = format!(
                "`{}` holds {} times the electrons that {} sheets take: at least ten times are wanted",
                batch.value,
                number(held / needed, 2, style),
                load.gone.sheets
            );
            report.add(
                report
                    .finding(batch.span, message)
                    .help("mix more of it, or one with more vitamin C"),
            );
        }
    }
}
