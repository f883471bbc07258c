//! More sheets than the recipe says a bath takes.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::ledger::ledger;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::Dimension;

pub(super) const RULE: Rule = Rule {
    name: slug::CAPACITY_OVER,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A batch that was used for more sheets, over all sessions, than its recipe's `capacity`.",
    why: "The recipe's own limit is passed: the later sheets may be under-developed, unstopped or unfixed.",
    instead: "Mix a fresh batch. If the capacity was too careful, change it in the recipe.",
    threshold: Some("The recipe's `capacity`, for the batch's volume."),
    sureness: Sureness::Language,
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
  capacity: 1 sheet
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
```exposure
id: pier-two
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

```session
id: evening
when: 2031-05-02 19:40
process: the-line
baths:
  rosemary: may-mix
sheets: [pier, pier-two]
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
  capacity: 20 sheets
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

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for entry in ledger(context) {
        let Some(capacity) = entry.bath.recipe.usage.capacity.get() else {
            continue;
        };
        let (Some(volume), Some(makes), Some(litres)) =
            (entry.batch.volume.get(), entry.bath.litres(), entry.litres())
        else {
            continue;
        };
        let scale = if capacity.per_litre {
            litres
        } else {
            volume.range.best / makes.best
        };
        let limit = capacity.amount.range.high * scale;
        let used = match capacity.amount.dimension {
            Dimension::Count => entry.whole_sheets,
            _ => match entry.square_millimetres {
                Some(area) => area,
                None => continue,
            },
        };
        if used <= limit * (1.0 + 1e-9) {
            continue;
        }
        let message = format!(
            "{}, {} times what it takes",
            entry.gone(),
            number(used / limit, 2, style)
        );
        report.add(
            report
                .finding(volume.span, message)
                .help("mix a fresh batch, or correct the recipe's `capacity`")
                .relate(capacity.span, "what the recipe says it takes"),
        );
    }
}
