//! Punctuation that nothing can be made of.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::YAML_BROKEN,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "Lines of a block that are not keys with values: a quote that is not closed, a second colon, an indent that fits nothing.",
    why: "A line that cannot be read is a line of the recipe that is missing. The rest of the block is read on, and what depends on the missing line is not computed.",
    instead: "Put text that holds a colon and a space, or begins with a sign such as `@` or `%`, in quotes, and start keys that belong together in the same column.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &["YAML Ain't Markup Language (YAML), version 1.2, revision 1.2.2"],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
note: grade 2: the soft one
```
",
        ),
        Example::good(
            r#"```paper
title: Plain grade 2
base: RC
note: "grade 2: the soft one"
```
"#,
        ),
    ],
    check: None,
};
