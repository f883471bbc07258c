//! A name with odd signs in it.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::ID_MALFORMED,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "An id that holds anything but letters, digits and hyphens.",
    why: "An id is also an address on the site, the name of a file, and a word in `{{ id.fact }}`; blanks and points would break all three.",
    instead: "Write it with hyphens. The title may hold what it likes.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
id: plain two
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
id: plain-two
```
",
        ),
    ],
    check: None,
};
