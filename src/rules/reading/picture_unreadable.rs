//! A picture that is none.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::PICTURE_UNREADABLE,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A picture file that is not an image that can be read.",
    why: "A scan that broke off half-way, or a file with the wrong ending, cannot be pressed.",
    instead: "Open it in a picture viewer and save it again as PNG, JPEG or TIFF.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[],
    check: None,
};
