//! A link to nowhere.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LINK_BROKEN,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A link to a page, block or heading that is not there, or a picture from another machine.",
    why: "On paper it is a dead end, and on the site an error page.",
    instead: "Write the target that is offered. Blocks and headings are named by `#` and their id.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "See [the soft paper](#plain-grade-3).

```paper
title: Plain grade 2
base: RC
```
",
        ),
        Example::good(
            "See [the soft paper](#plain-grade-2).

```paper
title: Plain grade 2
base: RC
```
",
        ),
    ],
    check: None,
};
