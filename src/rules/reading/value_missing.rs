//! A key without a value.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::VALUE_MISSING,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A key with nothing after its colon.",
    why: "It may be a line still to be filled in, or a value that slipped to the next line: a blank must not be read as zero.",
    instead: "Write the value after the colon, or leave the key out until you know.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
speed:
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
