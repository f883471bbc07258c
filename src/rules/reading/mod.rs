//! Files, pages and blocks that cannot be read as they stand.

mod acknowledged_idle;
mod amount_malformed;
mod amount_out_of_range;
mod date_malformed;
mod dimension_wrong;
mod expected_missing;
mod fact_private;
mod fact_unknown;
mod fence_open;
mod file_unreadable;
mod grade_fixed;
mod id_duplicate;
mod id_malformed;
mod id_missing;
mod kept_broken;
mod key_missing;
mod key_repeated;
mod key_unknown;
mod kind_unknown;
mod language_unknown;
mod link_broken;
mod link_outside;
mod no_settings;
mod not_utf8;
mod page_too_large;
mod picture_missing;
mod picture_unreadable;
mod ratio_ambiguous;
mod reference_kind;
mod reference_unknown;
mod rule_unknown;
mod time_doubled;
mod time_skipped;
mod unit_missing;
mod unit_unknown;
mod value_missing;
mod value_shape;
mod word_unknown;
mod yaml_anchor;
mod yaml_broken;
mod yaml_tab;
mod yaml_too_deep;
mod zone_missing;

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[
    &not_utf8::RULE,
    &file_unreadable::RULE,
    &page_too_large::RULE,
    &link_outside::RULE,
    &fence_open::RULE,
    &no_settings::RULE,
    &kept_broken::RULE,
    &yaml_broken::RULE,
    &yaml_tab::RULE,
    &yaml_anchor::RULE,
    &yaml_too_deep::RULE,
    &key_repeated::RULE,
    &kind_unknown::RULE,
    &key_unknown::RULE,
    &key_missing::RULE,
    &value_missing::RULE,
    &value_shape::RULE,
    &word_unknown::RULE,
    &id_duplicate::RULE,
    &id_missing::RULE,
    &id_malformed::RULE,
    &reference_unknown::RULE,
    &reference_kind::RULE,
    &amount_malformed::RULE,
    &unit_unknown::RULE,
    &unit_missing::RULE,
    &dimension_wrong::RULE,
    &amount_out_of_range::RULE,
    &ratio_ambiguous::RULE,
    &date_malformed::RULE,
    &zone_missing::RULE,
    &language_unknown::RULE,
    &time_skipped::RULE,
    &time_doubled::RULE,
    &rule_unknown::RULE,
    &grade_fixed::RULE,
    &expected_missing::RULE,
    &acknowledged_idle::RULE,
    &fact_unknown::RULE,
    &fact_private::RULE,
    &link_broken::RULE,
    &picture_missing::RULE,
    &picture_unreadable::RULE,
];
