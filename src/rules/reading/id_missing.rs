//! A block without a name.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::ID_MISSING,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A block that has neither title nor id, nor anything else that a name could be made from.",
    why: "Nothing can refer to it, and what is computed for it could not be found again.",
    instead: "Add a `title:`, which is printed, or an `id:`, which is not.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
base: RC
```
",
        ),
        Example::good(
            "```paper
id: plain-two
base: RC
```
",
        ),
    ],
    check: None,
};
