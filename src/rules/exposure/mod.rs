//! Cameras, papers and exposures, and the lamp that sheets are developed under.

mod box_speed_for_camera;
mod brighter_than_sun;
mod colour_impossible;
mod daylight_too_dim;
mod distance_disagrees;
mod foil_too_thick;
mod hole_far_off;
mod hole_unmeasured;
mod lamp_seen_by_paper;
mod paper_wraps_far;
mod prints_out;
mod reciprocity_missing;
mod reciprocity_too_high;
mod scan_resolution_off;
mod sees_missing;
mod sheet_too_small;
mod sheet_too_tall;
mod speed_missing;
mod speed_too_high;
mod step_beyond_strip;
mod strip_step_too_short;
mod sun_below_horizon;
mod times_beyond_table;
mod two_things_changed;
mod walk;

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[
    &hole_far_off::RULE,
    &hole_unmeasured::RULE,
    &distance_disagrees::RULE,
    &foil_too_thick::RULE,
    &paper_wraps_far::RULE,
    &sheet_too_tall::RULE,
    &sheet_too_small::RULE,
    &speed_missing::RULE,
    &speed_too_high::RULE,
    &box_speed_for_camera::RULE,
    &reciprocity_missing::RULE,
    &reciprocity_too_high::RULE,
    &times_beyond_table::RULE,
    &sees_missing::RULE,
    &colour_impossible::RULE,
    &strip_step_too_short::RULE,
    &step_beyond_strip::RULE,
    &two_things_changed::RULE,
    &sun_below_horizon::RULE,
    &brighter_than_sun::RULE,
    &prints_out::RULE,
    &daylight_too_dim::RULE,
    &scan_resolution_off::RULE,
    &lamp_seen_by_paper::RULE,
];
