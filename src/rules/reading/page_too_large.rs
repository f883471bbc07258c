//! A page beyond all reason.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::PAGE_TOO_LARGE,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A page of more than 8 MB.",
    why: "A year of notes has a few hundred kilobytes. A page this large is nearly always a picture or a backup with the wrong name, and reading it would hold up every save.",
    instead: "Split it into several pages, or give it another ending than `.md`.",
    threshold: Some("8 MB, which is 8,388,608 bytes."),
    sureness: Sureness::Language,
    sources: &[],
    examples: &[],
    check: None,
};
