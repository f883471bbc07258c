//! A promised mistake that is not there.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::EXPECTED_MISSING,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A rule that a block `expects` to show, and that does not speak there.",
    why: "A lesson that shows nothing teaches nothing: either the mistake was mended, or the rule does not see it.",
    instead: "Take the word out, or put the mistake back in.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
expects: [unit-unknown]
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
thickness: 0.25 mms
expects: [unit-unknown]
```
",
        ),
    ],
    check: None,
};
