//! Amounts and materials: the wrong soda, a heaped spoon, a percentage of nothing.

mod form;
mod form_missing;
mod hypo_form_missing;
mod soda_form_missing;
mod vinegar_strength_missing;

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[
    &soda_form_missing::RULE,
    &hypo_form_missing::RULE,
    &form_missing::RULE,
    &vinegar_strength_missing::RULE,
];
