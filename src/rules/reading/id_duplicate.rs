//! Two blocks of one name.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::ID_DUPLICATE,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A block whose id, or title without an id, another block has already taken.",
    why: "A reference to that name would meet one of the two by chance. It meets the first.",
    instead: "Give one of them an `id:` of its own.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
```

```paper
title: Plain grade 2
base: RC
speed: 6
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
```

```paper
title: Plain grade 2
base: RC
id: plain-two-fast
speed: 6
```
",
        ),
    ],
    check: None,
};
