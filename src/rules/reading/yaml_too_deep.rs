//! Lists in lists in lists.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::YAML_TOO_DEEP,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "Lists and keys inside one another, more than 32 deep.",
    why: "The language needs five levels. A block that goes deeper has slipped, most often by an unclosed bracket in every line.",
    instead: "Close the brackets, or write it flatter.",
    threshold: Some("32 levels."),
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
tags: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[soft]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
tags: [soft]
```
",
        ),
    ],
    check: None,
};
