//! A block without an end.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::FENCE_OPEN,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A block, or the front matter of a page, whose closing line is missing.",
    why: "Everything that follows is taken as part of the block: prose becomes nonsense keys, and the next block would vanish.",
    instead: "End a block with a line of as many backticks as it began with, front matter with a line of three hyphens.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
```
",
        ),
    ],
    check: None,
};
