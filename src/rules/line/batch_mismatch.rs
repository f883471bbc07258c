//! A batch of another recipe.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::BATCH_MISMATCH,
    grade: Grade::Fault,
    group: Group::Line,
    looks_for: "A session that names, for one recipe, a batch of another.",
    why: "The bath that the sheet went through is not the one the log says.",
    instead: "Name a batch of that recipe, or write the recipe that the batch is of.",
    threshold: None,
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
  plain-hypo: may-mix
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
    for (_, session) in context.notebook.sessions() {
        for (recipe, reference) in &session.baths {
            let batch = context.notebook.batch(&reference.value);
            let Some(of) = batch.and_then(|(_, batch)| batch.of.get()) else {
                continue;
            };
            // A variant of a recipe may stand in its place.
            let base = context
                .notebook
                .recipe(&of.value)
                .and_then(|(_, recipe)| recipe.based_on.get());
            let known = context.notebook.recipe(&recipe.value).is_some();
            if !known || of.value == recipe.value || base.is_some_and(|base| base.value == recipe.value) {
                continue;
            }
            let message = format!(
                "`{}` is a batch of `{}`, not of `{}`",
                reference.value, of.value, recipe.value
            );
            report.add(
                report
                    .finding(reference.span, message)
                    .help(format!(
                        "write `{}: {}`, or name a batch of `{}`",
                        of.value, reference.value, recipe.value
                    ))
                    .relate(of.span, "the batch says so here"),
            );
        }
    }
}
