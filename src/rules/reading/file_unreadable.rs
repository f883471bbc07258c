//! A file that the machine will not open.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::FILE_UNREADABLE,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A page or folder in the notebook that cannot be opened.",
    why: "What stands in it is missing from every computation, and nobody would notice on the printed card.",
    instead: "Give yourself the right to read it, or move it out of the notebook folder.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[],
    check: None,
};
