//! A camera where a paper belongs.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::REFERENCE_KIND,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "The id of a block of another kind than the key wants.",
    why: "Two blocks have probably been mixed up, and one of the two keys is now wrong.",
    instead: "Write the id of a block of the kind that is named.",
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
  paper: bench-lamp
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
