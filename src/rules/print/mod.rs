//! What concerns print; most of it is seen only when it is pressed.

mod card_overflow;
mod card_too_large;
mod card_too_wordy;
mod glyph_missing;
mod label_overflow;
mod red_contrast;
mod sheet_overflow;
mod template_broken;

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[
    &card_overflow::RULE,
    &glyph_missing::RULE,
    &template_broken::RULE,
    &card_too_large::RULE,
    &card_too_wordy::RULE,
    &red_contrast::RULE,
    &label_overflow::RULE,
    &sheet_overflow::RULE,
];
