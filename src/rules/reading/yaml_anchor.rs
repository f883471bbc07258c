//! Shorthand of YAML that notebooks do without.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::YAML_ANCHOR,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "Anchors, aliases and type marks: `&name`, `*name` and `!name`.",
    why: "They make one line depend on another that may stand pages away, and a small page of them can unfold to more than a machine holds.",
    instead: "Write the value out where it is needed. If a value begins with one of these signs, put it in quotes.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
note: *soft
```
",
        ),
        Example::good(
            r#"```paper
title: Plain grade 2
base: RC
note: "*soft* for snow and sky"
```
"#,
        ),
    ],
    check: None,
};
