//! An hour that came twice.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::TIME_DOUBLED,
    grade: Grade::Doubt,
    group: Group::Reading,
    looks_for: "A time of day that a clock change repeated.",
    why: "When the clocks go back the same hour strikes twice. The first is taken, and an age or a sun's height may be an hour off.",
    instead: "Give the offset, as the help shows.",
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
opened: 2031-10-26 01:30
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
opened: 2031-10-26T01:30:00+01:00
```
",
        ),
    ],
    check: None,
};
