//! A way out of the notebook folder.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LINK_OUTSIDE,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A link, picture or linked file that leads out of the notebook folder.",
    why: "A notebook is one folder that can be copied, lent and printed. What lies outside it is not there on the next machine, and may be something that was never meant to be pressed.",
    instead: "Put the file into the folder, or link to an address that begins with `https://`.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "Our first tests are in [the old folder](../old/tests.md).
",
        ),
        Example::good(
            "Our first tests are on [a page of their own](https://example.org/tests).
",
        ),
    ],
    check: None,
};
