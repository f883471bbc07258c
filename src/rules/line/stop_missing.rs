//! From a soda developer straight into an acid fixer.

use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::lines;

pub(super) const RULE: Rule = Rule {
    name: slug::STOP_MISSING,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A developer with soda followed by an acid fixer, with neither stop nor water between.",
    why: "Every sheet carries soda into the fixer until its acid is used up. Then it no longer stops \
              development, and stains.",
    instead: "Put a stop, or at least a rinse, between the two.",
    threshold: None,
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
  sodium metabisulfite: 25 g
  sodium sulfite, anhydrous: 1 g
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
  - bath: plain-hypo
    time: 2 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
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
  sodium metabisulfite: 25 g
  sodium sulfite, anhydrous: 1 g
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
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for line in lines(context) {
        for pair in line.steps.windows(2) {
            let [developer, fixer] = pair else { continue };
            let soda = developer.is(Role::Developer) && developer.holds(Property::Carbonate);
            let sour = fixer.fixes() && fixer.holds(Property::Acid);
            if soda && sour {
                let message = format!(
                    "`{}` goes straight into the acid of `{}`, and uses it up",
                    developer.name(),
                    fixer.name()
                );
                report.add(
                    report
                        .finding(fixer.step.span, message)
                        .help("put a stop between them, or `- rinse: tap water` with `time: 30 s`"),
                );
            }
        }
    }
}
