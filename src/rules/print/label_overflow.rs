//! Too much for one label.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LABEL_OVERFLOW,
    grade: Grade::Fault,
    group: Group::Print,
    looks_for: "A label that does not hold all that the bottle has to say, even at the smallest size that can be read.",
    why: "A bottle is read by someone who was not there when it was filled. What was left off for want of room may be the \
          line that says it burns.",
    instead: "Take a larger label under `press: labels: size:`, or shorten the title and the waste line. The hazard words \
              stay.",
    threshold: Some("7 pt, or 0.3 mm past the margin."),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[],
    check: None,
};
