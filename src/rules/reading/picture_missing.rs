//! A picture that is not there.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::PICTURE_MISSING,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A picture whose file is not in the notebook.",
    why: "The page would be pressed with a gap where the picture should be.",
    instead: "Put the file where the page looks for it, or correct its name; capitals count.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "![The pier at low tide](scans/pier.png)
",
        ),
        Example::good(
            "The pier at low tide was not scanned.
",
        ),
    ],
    check: None,
};
