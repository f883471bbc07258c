//! A rule that is not in the book.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::RULE_UNKNOWN,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "The name of a rule, in `acknowledge`, `expects` or `rules`, that does not exist.",
    why: "A mistyped name accepts nothing and changes nothing.",
    instead: "Write the name that is offered, or look it up with `trayside why --list`.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
acknowledge:
  light-of-the-moon: she likes it
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
note: she likes it
```
",
        ),
    ],
    check: None,
};
