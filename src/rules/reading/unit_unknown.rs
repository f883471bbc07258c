//! A unit that nobody knows.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::UNIT_UNKNOWN,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A unit that is not in the table, or that can mean two things.",
    why: "A grain is a fifteenth of a gram: where `gr` is either, the bath is either right or fifteen times too weak.",
    instead: "Write the unit that is offered.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
thickness: 0.25 mms
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
