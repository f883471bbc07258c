//! A tab in an indent.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::YAML_TAB,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A tab in the indent of a block's line.",
    why: "A tab has no agreed width, so it cannot tell what belongs under what.",
    instead: "Indent with spaces, two for each level. Most editors can be told to write spaces for the tab key.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &["YAML Ain't Markup Language (YAML), version 1.2, revision 1.2.2, section 6.1"],
    examples: &[
        Example::bad(
            "```paper\n\
title: Plain grade 2\n\
base: RC\n\
tags:\n\
\t- soft\n\
\t- open\n\
```\n\
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
tags:
  - soft
  - open
```
",
        ),
    ],
    check: None,
};
