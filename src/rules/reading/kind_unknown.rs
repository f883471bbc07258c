//! A mistyped kind.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::KIND_UNKNOWN,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A fence whose first word is nearly, but not quite, the kind of a block, or has more words after it.",
    why: "An ordinary reader would take it for a piece of code, and the recipe in it would silently not exist.",
    instead: "Write the kind as the help says. Give the block a `title:` for anything else that should be said.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```papre
title: Plain grade 2
base: RC
```
",
        ),
        Example::good(
            "```shell
ls scans
```
",
        ),
    ],
    check: None,
};
