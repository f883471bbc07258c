//! Mixing and keeping baths.

mod acid_into_hypo;
mod acid_into_sulfite;
mod alkali_headroom;
mod alkali_missing;
mod alum_in_alkali;
mod ammonia_freed;
mod baked_unweighed;
mod baking_soda_alone;
mod based_on_circle;
mod borate_with_minors;
mod caustic_into_warm;
mod caustic_present;
mod caustic_used_up;
mod dichromate_present;
mod dry_premix;
mod emulsion_heat;
mod expectation_missed;
mod ferricyanide_with_acid;
mod fixer_sulfurises;
mod folk_fixer;
mod gas_confined;
mod hypo_into_cold_water;
mod hypo_strength;
mod hypochlorite_with_acid;
mod hypochlorite_with_ammonia;
mod measured_disagrees;
mod mixed_together;
mod oxidiser_with_developer;
mod part_name_taken;
mod ph_outside_window;
mod plant_loading_incomplete;
mod reductant_strange;
mod restrainer_missing;
mod soda_into_acid;
mod stop_never_discarded;
mod stop_not_acid;
mod stop_strength;
mod stop_time;
mod sulfide_with_acid;
mod sulfur_dioxide_freed;
mod vessel_too_small;
mod vitamin_c_over_soda;
mod water_missing;
mod water_over_makes;
mod working_life_long;
mod working_life_missing;

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[
    &part_name_taken::RULE,
    &hypochlorite_with_acid::RULE,
    &hypochlorite_with_ammonia::RULE,
    &acid_into_hypo::RULE,
    &dry_premix::RULE,
    &baking_soda_alone::RULE,
    &sulfide_with_acid::RULE,
    &ferricyanide_with_acid::RULE,
    &ammonia_freed::RULE,
    &oxidiser_with_developer::RULE,
    &dichromate_present::RULE,
    &acid_into_sulfite::RULE,
    &caustic_into_warm::RULE,
    &caustic_present::RULE,
    &borate_with_minors::RULE,
    &alkali_missing::RULE,
    &vitamin_c_over_soda::RULE,
    &caustic_used_up::RULE,
    &mixed_together::RULE,
    &soda_into_acid::RULE,
    &vessel_too_small::RULE,
    &water_missing::RULE,
    &water_over_makes::RULE,
    &working_life_missing::RULE,
    &working_life_long::RULE,
    &restrainer_missing::RULE,
    &plant_loading_incomplete::RULE,
    &reductant_strange::RULE,
    &emulsion_heat::RULE,
    &alum_in_alkali::RULE,
    &hypo_strength::RULE,
    &hypo_into_cold_water::RULE,
    &folk_fixer::RULE,
    &stop_strength::RULE,
    &stop_time::RULE,
    &stop_never_discarded::RULE,
    &baked_unweighed::RULE,
    &based_on_circle::RULE,
    &ph_outside_window::RULE,
    &stop_not_acid::RULE,
    &fixer_sulfurises::RULE,
    &sulfur_dioxide_freed::RULE,
    &alkali_headroom::RULE,
    &gas_confined::RULE,
    &measured_disagrees::RULE,
    &expectation_missed::RULE,
];
