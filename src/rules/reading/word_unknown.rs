//! A word from no list.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::WORD_UNKNOWN,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A word where only certain words are known, such as the base of a paper or the role of a bath.",
    why: "These words decide what is computed: a misspelt `fibre` would get the washing time of plastic paper.",
    instead: "Choose one of the words that are listed.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: fiber base
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: fibre
```
",
        ),
    ],
    check: None,
};
