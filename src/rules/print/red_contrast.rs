//! Words that a safelight swallows.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::RED_CONTRAST,
    grade: Grade::Fault,
    group: Group::Print,
    looks_for: "Words on a card that cannot be told from what they stand on when only red light falls on them.",
    why: "Under a red lamp red, orange and yellow ink are as bright as the paper and grey drowns: a card that was good on \
          the screen is blank at the tray.",
    instead: "Set it in black on white. Blue, green and black all go dark; say nothing by colour alone.",
    threshold: Some("A contrast of 7 in linear red light, (brighter + 0.05) / (darker + 0.05)."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[],
    check: None,
};
