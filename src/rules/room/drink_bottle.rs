//! A bath in a bottle that people drink from.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::DRINK_BOTTLE,
    grade: Grade::Hazard,
    group: Group::Room,
    looks_for: "A batch whose `bottle` is one for drink or food.",
    why: "Who is thirsty drinks from what looks like a drink. A label does not help in the dark, nor with a child.",
    instead: "Use a bottle that never held food or drink, and label it.",
    threshold: Some(
        "Words such as lemonade, juice, beer, drink, water bottle or jam in `bottle`, unless it says that it is not one.",
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
bottle: old lemonade bottle
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
bottle: brown laboratory bottle, not for drink
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

/// What bottles for drink and food are called. Soda and vinegar are not among them: they are in the bath as well.
const FOOD: &[&str] = &[
    "beer",
    "coke",
    "cola",
    "cordial",
    "drink",
    "drinking",
    "drinks",
    "jam",
    "juice",
    "ketchup",
    "lemonade",
    "milk",
    "mineral water",
    "smoothie",
    "squash",
    "tonic",
    "water bottle",
    "wine",
];
/// Words that turn it round; purified water is sold in bottles of its own.
const NOT: &[&str] = &["deionised", "deionized", "distilled", "never", "no", "non", "not"];

fn check(context: &Context<'_>, report: &mut Report) {
    for (_, batch) in context.notebook.batches() {
        let Some(bottle) = batch.bottle.get() else {
            continue;
        };
        let text = bottle.value.to_lowercase();
        let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).collect();
        // Between spaces, so that only whole words are found.
        let spaced = format!(" {} ", words.join(" "));
        let has = |word: &&&str| spaced.contains(&format!(" {word} "));
        if NOT.iter().any(|word| has(&word)) {
            continue;
        }
        let Some(food) = FOOD.iter().find(has) else {
            continue;
        };
        let message = format!("`{food}`: somebody may drink from such a bottle");
        report.add(
            report
                .finding(bottle.span, message)
                .help("pour it into a bottle that never held food or drink, and label it"),
        );
    }
}
