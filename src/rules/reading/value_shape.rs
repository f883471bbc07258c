//! A list where a word belongs.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::VALUE_SHAPE,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A value of the wrong shape: a list where one amount is wanted, keys where a word is wanted, a word where a whole number is wanted.",
    why: "The value cannot be used, and everything that needs it is left uncomputed.",
    instead: "Write it as the help shows.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
speed: [6, 3]
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
speed: 3–6
```
",
        ),
    ],
    check: None,
};
