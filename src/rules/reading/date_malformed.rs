//! A date that is in no calendar.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::DATE_MALFORMED,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A date that is not written as year, month and day, or that does not exist.",
    why: "The order of day and month differs from country to country; `02/05` is two dates.",
    instead: "Write `2031-05-02`, or with its time `2031-05-02 19:30`.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &["RFC 3339, Date and Time on the Internet: Timestamps"],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
opened: 2 May 2031
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
opened: 2031-05-02
```
",
        ),
    ],
    check: None,
};
