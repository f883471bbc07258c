//! The line of baths: stop, rinse, fix, wash.

mod fixer_missing;
mod rinse_missing;
mod working_life_over;

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[
    &fixer_missing::RULE,
    &rinse_missing::RULE,
    &working_life_over::RULE,
];
