//! An hour that never was.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::TIME_SKIPPED,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A time of day that a clock change leapt over.",
    why: "When the clocks go forward there is no half past one that night: the note was written with another clock, or on another day.",
    instead: "Write the time that the clock showed, or give the offset.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[
        "Directive 2000/84/EC of the European Parliament and of the Council on summer-time arrangements",
    ],
    examples: &[
        Example::bad(
            "format: 1
title: Shed notes
zone: Europe/Lisbon
---8<---
```paper
title: Plain grade 2
base: RC
opened: 2031-03-30 01:30
```
",
        ),
        Example::good(
            "format: 1
title: Shed notes
zone: Europe/Lisbon
---8<---
```paper
title: Plain grade 2
base: RC
opened: 2031-03-30 02:30
```
",
        ),
    ],
    check: None,
};
