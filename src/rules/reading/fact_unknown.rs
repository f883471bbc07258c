//! A fact that nobody computed.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::FACT_UNKNOWN,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A `{{ id.fact }}` in the prose that names no block, or nothing that is computed for it.",
    why: "The sentence would be printed with a hole in it.",
    instead: "Write the name that is offered, or look it up with `trayside facts`.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
```

The sheet is {{ plain-grade-2.weight }} heavy.
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
speed: 6
```

The sheet has a speed of {{ plain-grade-2.speed }}.
",
        ),
    ],
    check: None,
};
