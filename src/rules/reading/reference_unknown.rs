//! A reference that meets nothing.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::REFERENCE_UNKNOWN,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "The id of a block that is nowhere in the notebook.",
    why: "The exposure's camera, the session's bath or the recipe it builds on is missing, so nothing that rests on it can be computed.",
    instead: "Write the id that is offered, or add the block.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```safelight
title: Bench lamp
lamp: red LED bulb
colour: red
distance: 1.2 m
switches: red only
tested:
  date: 2031-04-02
  paper: plain-two
  bare: clean to 12 min
  pre-exposed: clean to 10 min
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
id: plain-two
```

```safelight
title: Bench lamp
lamp: red LED bulb
colour: red
distance: 1.2 m
switches: red only
tested:
  date: 2031-04-02
  paper: plain-two
  bare: clean to 12 min
  pre-exposed: clean to 10 min
```
",
        ),
    ],
    check: None,
};
