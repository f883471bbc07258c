//! A grade that is not yours to change.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::GRADE_FIXED,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A grade set in `rules:`, or an `acknowledge`, for a rule that allows neither.",
    why: "A hazard can hurt someone, whatever a notebook says; what cannot be read cannot be accepted, because nobody knows what it would have been.",
    instead: "For a hazard, write the reason with `acknowledge` in the block itself. For anything that cannot be read, mend it.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "format: 1
title: Shed notes
zone: Europe/Lisbon
rules:
  unit-unknown: hint
---8<---
A page without blocks.
",
        ),
        Example::good(
            "format: 1
title: Shed notes
zone: Europe/Lisbon
rules:
  zone-missing: off
---8<---
A page without blocks.
",
        ),
    ],
    check: None,
};
