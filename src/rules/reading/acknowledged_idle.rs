//! An excuse without a reason.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::ACKNOWLEDGED_IDLE,
    grade: Grade::Hint,
    group: Group::Reading,
    looks_for: "A rule that a block acknowledges, and that does not speak there.",
    why: "An idle acknowledgement would hide the next finding of that name, which may be another matter.",
    instead: "Take it out.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
opened: 2031-10-25 01:30
acknowledge:
  time-doubled: it was the first of the two
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
opened: 2031-10-26 01:30
acknowledge:
  time-doubled: it was the first of the two
```
",
        ),
    ],
    check: None,
};
