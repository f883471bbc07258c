//! From an acid stop straight into plain hypo.

use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{LineStep, lines};

pub(super) const RULE: Rule = Rule {
    name: slug::RINSE_MISSING,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "An acid stop followed by plain hypo, with no water between and no sulfite in the fixer.",
    why: "Plain hypo has nothing that holds off acid. Every sheet carries some stop along; the bath turns milky with \
          sulfur, harms the sheets and smells of sulfur dioxide.",
    instead: "Put a tray of water between the two, thirty seconds, changed when it has served a few sheets.",
    threshold: None,
    sureness: Sureness::Published,
    sources: &["US Navy training manual 14209 (fixers are sulfurised by acid carried over from the stop)"],
    examples: &[
        Example::bad(
            "
```recipe
id: citric-stop
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
id: hasty-line
paper: RC
steps:
  - bath: citric-stop
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
        Example::good(
            "
```recipe
id: citric-stop
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
id: calm-line
paper: RC
steps:
  - bath: citric-stop
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
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for line in lines(context) {
        if line.process.incomplete {
            continue;
        }
        for pair in line.steps.windows(2) {
            let [stop, fixer] = pair else { continue };
            if sour(stop) && plain(fixer) {
                let message = format!(
                    "from `{}` straight into `{}`: the acid that the sheet carries breaks up plain hypo",
                    stop.name(),
                    fixer.name()
                );
                report.add(
                    report
                        .finding(fixer.step.span, message)
                        .help("put `- rinse: tap water` with `time: 30 s` before it")
                        .relate(stop.step.span, "this bath is acid"),
                );
            }
        }
    }
}

fn sour(step: &LineStep<'_>) -> bool {
    step.bath
        .is_some_and(|bath| bath.role() == Some(Role::Stop) && bath.acid().is_some())
}

/// A thiosulfate bath that could be read to its end and holds no sulfite.
fn plain(step: &LineStep<'_>) -> bool {
    step.holds(Property::Thiosulfate)
        && !step.holds(Property::Sulfite)
        && step.bath.is_some_and(|bath| bath.complete)
}
