//! More paper than a fixer takes.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::ledger::ledger;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::FIXER_AREA_OVER,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A fixer batch through which more paper has gone, over all sessions, than it takes.",
    why: "It fills with silver and leaves compounds in the sheet that no washing takes out. They show as \
              stains months later.",
    instead: "Mix a fresh bath; of two, the second becomes the first.",
    threshold: Some("Above 12,500 cm² in a litre of the first bath a doubt, above 25,000 a fault."),
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
pinhole: 0.7 mm
distance: 400 mm
format: 400×500 mm
```

```paper
id: grade-2
base: RC
size: 400×500 mm
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
id: spring-hypo
of: plain-hypo
made: 2031-05-02 16:00
volume: 0.1 l
by: MT
```

```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
  plain-hypo: spring-hypo
sheets: [pier]
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
discarded: 2031-05-02 20:00
```

```batch
id: spring-hypo
of: plain-hypo
made: 2031-05-02 16:00
volume: 0.5 l
by: MT
```

```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
  plain-hypo: spring-hypo
sheets: [pier]
people: 4
each: 20
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
discarded: 2031-05-02 20:00
```

```batch
id: spring-hypo
of: plain-hypo
made: 2031-05-02 16:00
volume: 0.1 l
by: MT
```

```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
  plain-hypo: spring-hypo
sheets: [pier]
```
",
        ),
    ],
    check: Some(check),
};

/// Square centimetres in a litre, of the first of two baths (published for another bath; common practice here).
const MOST: f64 = 25_000.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for entry in ledger(context) {
        let fixes = entry.bath.first(Property::Thiosulfate).is_some() && entry.first_fixer;
        let (true, Some(area)) = (fixes, entry.square_millimetres) else {
            continue;
        };
        let Some(litres) = entry.litres() else { continue };
        let load = area / 100.0 / litres;
        let grade = if load > MOST {
            Grade::Fault
        } else if load > MOST / 2.0 {
            Grade::Doubt
        } else {
            continue;
        };
        let message = format!("{}: {} cm² in a litre", entry.gone(), number(load, 3, style));
        let span = entry
            .batch
            .volume
            .get()
            .map_or(entry.block.head, |volume| volume.span);
        let mut finding = report
            .graded(grade, span, message)
            .help("mix a fresh bath; of two, the second becomes the first");
        if let Some(last) = entry.last {
            finding = finding.relate(last, "the last session that used it");
        }
        report.add(finding);
    }
}
