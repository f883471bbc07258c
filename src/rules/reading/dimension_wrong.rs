//! Grams where millilitres belong.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::DIMENSION_WRONG,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "An amount in a unit of the wrong kind, such as a mass where a volume is wanted.",
    why: "Kinds of amounts do not turn into one another without a density or a strength, so the value cannot be used.",
    instead: "Write it in a unit of the kind that is named.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
thickness: 0.25 g
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
