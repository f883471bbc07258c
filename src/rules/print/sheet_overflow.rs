//! Too much for a weighing sheet, a log slip or the room sheet.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::SHEET_OVERFLOW,
    grade: Grade::Fault,
    group: Group::Print,
    looks_for: "A weighing sheet, cutting template, log slip or room sheet on which words run past the edge or over one another.",
    why: "These papers run on to a further page, so only a word or a column can be too wide, or a slip too small. An amount that is \
          cut off is weighed wrongly.",
    instead: "Take a larger page or slip under `press:`, or fewer `volumes`.",
    threshold: Some("0.3 mm past the margin, or 0.3 mm over another word."),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[],
    check: None,
};
