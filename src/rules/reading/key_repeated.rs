//! The same key twice.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::KEY_REPEATED,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A key that is written twice in one place.",
    why: "Only one of the two can be meant, and a reader at the tray cannot know which. The first is taken.",
    instead: "Keep one of the two.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
speed: 6
speed: 3
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
speed: 6
note: 3 on a dull day
```
",
        ),
    ],
    check: None,
};
