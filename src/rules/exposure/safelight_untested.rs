//! A lamp over paper with which it was never tested.

use std::collections::BTreeSet;

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::walk::lit_sessions;

pub(super) const RULE: Rule = Rule {
    name: slug::SAFELIGHT_UNTESTED,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A session under a lamp that has no fog test with a paper that was developed in it.",
    why: "A lamp is not safe because it is red. Bulbs sold as red may leak other colours, and papers differ in what they see; the fog comes slowly, as greys that look like a tired developer.",
    instead: "Lay coins on a sheet already exposed to a light grey, lift one every few minutes under the lamp, develop, and write the first time at which an edge shows.",
    threshold: None,
    sureness: Sureness::Published,
    sources: &[
        "ANSI IT2.26-1998, Photographic darkroom illumination, safelight conditions (title from memory, unverified)",
    ],
    examples: &[
        Example::bad(
            "
```camera
id: box
pinhole: 0.3 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 14
time: 90 s
```

```process
id: line
paper: RC
steps:
  - bath: plain-hypo
    time: 4 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
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

```safelight
id: beam
lamp: red bulb
colour: red
distance: 1.3 m
```

```session
id: evening
when: 2031-05-02 19:00
process: line
safelight: beam
sheets: [pier]
```
",
        ),
        Example::good(
            "
```camera
id: box
pinhole: 0.3 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 14
time: 90 s
```

```process
id: line
paper: RC
steps:
  - bath: plain-hypo
    time: 4 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
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

```safelight
id: beam
lamp: red bulb
colour: red
distance: 1.3 m
tested:
  paper: grade-2
  pre-exposed: clean to 30 min
```

```session
id: evening
when: 2031-05-02 19:00
process: line
safelight: beam
sheets: [pier]
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let mut told = BTreeSet::new();
    for lit in lit_sessions(context) {
        let tested = lit.safelight.tested.get().and_then(|test| test.paper.get());
        if lit.safelight.tested.is_broken() {
            continue;
        }
        for paper in &lit.papers {
            let known = tested.is_some_and(|tested| tested.value == *paper);
            // A test that names no paper is taken for the paper at hand.
            let unnamed = tested.is_none() && lit.safelight.tested.get().is_some();
            if known || unnamed || !told.insert((lit.lamp.id.as_str(), *paper)) {
                continue;
            }
            let name = context
                .notebook
                .paper(paper)
                .map_or(*paper, |(block, _)| block.name());
            report.add(
                report
                    .finding(
                        lit.reference,
                        format!("`{}` was not tested with `{name}`", lit.lamp.name()),
                    )
                    .help("lay coins on a sheet under it, and note when their edges first show")
                    .relate(lit.lamp.head, "this is the lamp"),
            );
        }
    }
}
