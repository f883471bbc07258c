//! A clock time in no zone.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::ZONE_MISSING,
    grade: Grade::Doubt,
    group: Group::Reading,
    looks_for: "A date without an offset in a notebook that names no zone.",
    why: "The sun's height and the age of a bath depend on the hour. Without a zone the date is taken as UTC, which may be hours off.",
    instead: "Add `zone:` to `trayside.yaml`, such as `zone: Europe/Lisbon`.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "format: 1
title: Shed notes
---8<---
```paper
title: Plain grade 2
base: RC
opened: 2031-05-02
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
opened: 2031-05-02
```
",
        ),
    ],
    check: None,
};
