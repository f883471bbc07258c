//! A character that no font has.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::GLYPH_MISSING,
    grade: Grade::Fault,
    group: Group::Print,
    looks_for: "A character on a card that none of the fonts can draw.",
    why: "It is printed as an empty box, and an empty box in an amount can be taken for anything.",
    instead: "Write the word out, or use a common sign in its place.",
    threshold: None,
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[],
    check: None,
};
