//! A stop that will not last the session.

use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::told::told;

pub(super) const RULE: Rule = Rule {
    name: slug::STOP_SPENT,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A session that plans more sheets than its stop takes before it comes to pH 5.",
    why: "Every sheet brings developer into the stop. Once that has used up the acid, development goes on in the fixer, and the fixer dies of it.",
    instead: "Mix a fresh batch half-way, more of it, or put a rinse before it. Weigh a drained wet sheet and a dry one, and write the difference as `carried`: then the figure is yours.",
    threshold: Some(
        "More sheets than the best estimate a doubt, more than the highest a fault; the rinse before it is not counted.",
    ),
    sureness: Sureness::Computed,
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
id: weak-stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 5 g
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
volume: 0.4 l
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
each: 25
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

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, session) in context.notebook.sessions() {
        for (recipe, batch) in &session.baths {
            let bath = context.facts.baths.get(&recipe.value);
            if bath.and_then(crate::facts::Bath::role) != Some(Role::Stop) {
                continue;
            }
            let left = context
                .facts
                .get(&block.id, &format!("sheets-left.{}", recipe.value));
            let Some(left) = left.and_then(crate::facts::Fact::range) else {
                continue;
            };
            // That so many sheets went through it is said at the batch.
            let mixed = context.notebook.block(&batch.value);
            let over = mixed.is_some_and(|mixed| told(report, mixed, &[slug::CAPACITY_OVER]));
            if left.best >= 0.0 || over {
                continue;
            }
            let grade = if left.high < 0.0 {
                Grade::Fault
            } else {
                Grade::Doubt
            };
            let message = format!(
                "`{}` is spent {} sheets before the end of this session",
                batch.value,
                number(-left.best, 2, style)
            );
            report.add(
                report
                    .graded(grade, batch.span, message)
                    .help("mix a fresh one half-way, or more of it; or weigh a wet sheet and give `carried`"),
            );
        }
    }
}
