//! A development time computed for a temperature that nobody has tried.

use crate::clock::temperature::TRUSTED;
use crate::facts::Bath;
use crate::finding::{Grade, slug};
use crate::notebook::{Role, SecondPoint};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Dimension, Range, show};

pub(super) const RULE: Rule = Rule {
    name: slug::TEMPERATURE_FAR,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A session whose temperature lies outside 15 to 30 °C and outside what its developer's recipe names, so that its `develop-time` is carried far from the times that are known.",
    why: "Times follow temperature by one factor for ten degrees within a few degrees of where they were tried. Colder, agents stop working one after the other; warmer, gelatin softens and fog comes first.",
    instead: "Bring the bath nearer to its temperature, or give a second time at a second temperature under `use`: `at`.",
    threshold: Some("Below 15 or above 30 °C, and outside of `temperature` and `at` of the recipe."),
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
use:
  temperature: 22 °C
  time: 4 min
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

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: grade-2
light: EV 14
time: 2 min
result: right
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

```session
id: evening
when: 2031-05-02 19:40
process: the-line
temperature: 9 °C
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
use:
  temperature: 22 °C
  time: 4 min
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

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: grade-2
light: EV 14
time: 2 min
result: right
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

```session
id: evening
when: 2031-05-02 19:40
process: the-line
temperature: 18 °C
sheets: [pier]
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, session) in context.notebook.sessions() {
        let computed = context.facts.range(&block.id, "develop-time");
        let (Some(real), Some(_)) = (session.temperature.get(), computed) else {
            continue;
        };
        let process = session.process.get();
        let process = process.and_then(|process| context.notebook.process(&process.value));
        let baths = context.facts.baths.in_session(session);
        let developer = process.and_then(|(_, process)| {
            let mut ids = process.steps.iter().filter_map(|step| step.bath.get());
            ids.find_map(|id| {
                baths
                    .get(&id.value)
                    .filter(|bath| bath.role() == Some(Role::Developer))
            })
        });
        let Some(known) = developer.and_then(known) else {
            continue;
        };
        let celsius = real.range.best;
        if (known.low..=known.high).contains(&celsius) {
            continue;
        }
        let message = format!(
            "no time is known near {}: development is computed by a factor that holds from {}",
            real.show(style),
            show(known, Dimension::Temperature, Digits::Significant(2), style)
        );
        report.add(
            report
                .finding(real.span, message)
                .help("bring the bath nearer to its temperature, or develop by inspection"),
        );
    }
}

/// Between which temperatures a developer's time is followed: where that is trusted, and what its recipe names.
fn known(bath: &Bath) -> Option<Range> {
    let usage = &bath.recipe.usage;
    let stated = usage.temperature.get()?.range;
    let second = match usage.at.get().map(|at| &at.value) {
        Some(SecondPoint::Point { temperature, .. }) => temperature.range,
        _ => stated,
    };
    let all = TRUSTED.hull(stated).hull(second);
    Some(Range::between(all.low, all.high))
}
