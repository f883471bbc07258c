//! An amount that cannot be.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::AMOUNT_OUT_OF_RANGE,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "An amount beyond what its kind allows: a time below nothing, a share above the whole, a temperature below absolute zero.",
    why: "It is a slip of the pen, and whatever is computed from it would be nonsense with a unit.",
    instead: "Check the number and its sign.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
reciprocity: 0.4
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
reciprocity: 1.2
```
",
        ),
    ],
    check: None,
};
