//! A key that the block does not have.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::KEY_UNKNOWN,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A key that is not in the language's table for this block.",
    why: "What is written under an unknown key is not computed with, and nobody would miss it until the print is wrong.",
    instead: "Write the key that is offered. What has no key of its own goes into `note:`.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
thicknes: 0.25 mm
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
