//! The room, the people in it, and where the waste goes.

mod developed_before_exposed;
mod drain_unasked;
mod drink_bottle;
mod event_sheet_unlisted;
mod heat_with_minors;
mod lamp_changes_colour;
mod lamp_time_over;
mod lamp_too_near;
mod lamp_untested;
mod line_crowded;
mod log_entry_thin;
mod plant_family_irritant;
mod plant_not_allowed;
mod plant_unnamed;
mod ready_before_start;
mod sheet_listed_twice;
mod silver_down_drain;
mod silver_waste_missing;
mod strong_soda_uncautioned;

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[
    &lamp_untested::RULE,
    &lamp_too_near::RULE,
    &lamp_changes_colour::RULE,
    &lamp_time_over::RULE,
    &line_crowded::RULE,
    &silver_waste_missing::RULE,
    &silver_down_drain::RULE,
    &drink_bottle::RULE,
    &drain_unasked::RULE,
    &plant_unnamed::RULE,
    &plant_not_allowed::RULE,
    &plant_family_irritant::RULE,
    &strong_soda_uncautioned::RULE,
    &heat_with_minors::RULE,
    &log_entry_thin::RULE,
    &developed_before_exposed::RULE,
    &sheet_listed_twice::RULE,
    &event_sheet_unlisted::RULE,
    &ready_before_start::RULE,
];
