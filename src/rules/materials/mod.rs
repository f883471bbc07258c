//! Amounts and materials: the wrong soda, a heaped spoon, a percentage of nothing.

mod acid_concentrated;
mod ascorbate_swapped;
mod baking_powder;
mod below_scale;
mod effervescent_tablets;
mod form;
mod form_missing;
mod formula_malformed;
mod hard_water;
mod hypo_form_missing;
mod iodised_salt;
mod juice_unmeasured;
mod material_ambiguous;
mod material_unknown;
mod percent_without_basis;
mod shelf_short;
mod soda_form_missing;
mod solubility_exceeded;
mod spoon_without_grams;
mod strength;
mod strength_missing;
mod swap_idle;
mod swap_wrong_way;
mod tablet_mass_missing;
mod vinegar_strength_missing;

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[
    &soda_form_missing::RULE,
    &hypo_form_missing::RULE,
    &form_missing::RULE,
    &vinegar_strength_missing::RULE,
    &material_unknown::RULE,
    &formula_malformed::RULE,
    &material_ambiguous::RULE,
    &strength_missing::RULE,
    &percent_without_basis::RULE,
    &juice_unmeasured::RULE,
    &spoon_without_grams::RULE,
    &below_scale::RULE,
    &tablet_mass_missing::RULE,
    &effervescent_tablets::RULE,
    &baking_powder::RULE,
    &iodised_salt::RULE,
    &ascorbate_swapped::RULE,
    &swap_wrong_way::RULE,
    &swap_idle::RULE,
    &shelf_short::RULE,
    &hard_water::RULE,
    &solubility_exceeded::RULE,
    &acid_concentrated::RULE,
];
