//! A card or label larger than its sheet.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::CARD_TOO_LARGE,
    grade: Grade::Fault,
    group: Group::Print,
    looks_for: "A card or label size that does not go on the sheet it is to be printed on, margins and clear border included.",
    why: "It cannot be printed at its size, and a card that is shrunk to fit cannot be read at the tray.",
    instead: "Choose a larger sheet, a smaller card, or a narrower border.",
    threshold: None,
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[],
    check: None,
};
