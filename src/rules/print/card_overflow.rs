//! Too much for one card.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::CARD_OVERFLOW,
    grade: Grade::Fault,
    group: Group::Print,
    looks_for: "A card whose text does not fit, even at the smallest sizes that can be read at arm's length.",
    why: "Words that run over the edge are cut off with it, and a step that is cut off is a step that is not done.",
    instead: "Take a larger card, shorten the notes, or split the recipe into a stock and a working bath.",
    threshold: Some("0.3 mm past the margin, or over other words."),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[],
    check: None,
};
