//! A key that must be there.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::KEY_MISSING,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A block that lacks a key without which it says nothing.",
    why: "A paper without its base cannot be washed right, a recipe without its volume cannot be weighed out.",
    instead: "Add the key that is named. Where you do not know the value, leave the block out: a guess would be printed as a fact.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
speed: 6
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
speed: 6
```
",
        ),
    ],
    check: None,
};
