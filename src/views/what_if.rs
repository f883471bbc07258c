//! What would be found were a bath another than its recipe says.

use serde::Serialize;

use crate::facts::Facts;
use crate::finding::{Finding, Grade, Standing, slug};
use crate::notebook::{Block, Notebook};
use crate::rules;

/// A finding in a line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Said {
    /// Its grade.
    pub grade: &'static str,
    /// The rule's name.
    pub rule: &'static str,
    /// What it says.
    pub message: String,
}

/// Everything the rules say of facts.
pub(super) fn found(notebook: &Notebook, facts: &Facts) -> Vec<Finding> {
    rules::settle(notebook, rules::check(notebook, facts))
}

/// By which rules one heap of findings speaks of a block and another does not. Hazards count whether acknowledged or not.
pub(super) fn only_in(these: &[Finding], those: &[Finding], block: &Block) -> Vec<Said> {
    let of = |finding: &&Finding| {
        block.span.holds(finding.span)
            // What a block expects of itself is about its text.
            && finding.rule != slug::EXPECTED_MISSING
            && (finding.standing == Standing::Open || finding.grade == Grade::Hazard)
    };
    these
        .iter()
        .filter(of)
        .filter(|finding| !those.iter().filter(of).any(|other| other.rule == finding.rule))
        .map(|finding| Said {
            grade: finding.grade.word(),
            rule: finding.rule.as_str(),
            message: finding.message.clone(),
        })
        .collect()
}
