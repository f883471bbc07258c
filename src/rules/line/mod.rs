//! The line of baths: stop, rinse, fix, wash.

mod base_mismatch;
mod batch_mismatch;
mod blister_risk;
mod capacity_over;
mod clearing_untested;
mod fix_below_clearing;
mod fix_time;
mod fixer_area_over;
mod fixer_missing;
mod lights_on_early;
mod reductant_short;
mod rinse_missing;
mod stop_missing;
mod stop_spent;
mod temperature_far;
mod tray_shallow;
mod tray_shared;
mod used_after_discard;
mod wash_missing;
mod wash_short;
mod working_life_over;

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[
    &fixer_missing::RULE,
    &rinse_missing::RULE,
    &working_life_over::RULE,
    &fix_time::RULE,
    &fix_below_clearing::RULE,
    &clearing_untested::RULE,
    &lights_on_early::RULE,
    &wash_missing::RULE,
    &wash_short::RULE,
    &tray_shared::RULE,
    &tray_shallow::RULE,
    &temperature_far::RULE,
    &stop_missing::RULE,
    &blister_risk::RULE,
    &used_after_discard::RULE,
    &base_mismatch::RULE,
    &batch_mismatch::RULE,
    &fixer_area_over::RULE,
    &capacity_over::RULE,
    &stop_spent::RULE,
    &reductant_short::RULE,
];
