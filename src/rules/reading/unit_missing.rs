//! A number alone.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::UNIT_MISSING,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A number without a unit where one is needed.",
    why: "`10` may be ten seconds or ten minutes.",
    instead: "Write the unit after the number.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
thickness: 0.25
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
thickness: 0.25 mm
```
",
        ),
    ],
    check: None,
};
