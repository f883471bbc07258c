//! Mixing and keeping baths.

mod acid_into_hypo;
mod baking_soda_alone;
mod based_on_circle;
mod dry_premix;
mod hypochlorite_with_acid;
mod hypochlorite_with_ammonia;

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[
    &hypochlorite_with_acid::RULE,
    &hypochlorite_with_ammonia::RULE,
    &acid_into_hypo::RULE,
    &dry_premix::RULE,
    &baking_soda_alone::RULE,
    &based_on_circle::RULE,
];
