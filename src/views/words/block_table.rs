//! The words of what a block says on a page: its labels, the words in its values, its facts and its plots.

use super::table::{Group, group};
use crate::notebook::{Evidence, Kind, MeasuredWith, Side, Support, Switches, Through};
use crate::optics::{Criterion, Facing, Sees, Sky};

/// The words of one language.
#[derive(Debug)]
pub(crate) struct BlockWords {
    pub(crate) row: RowWords,
    pub(crate) value: ValueWords,
    pub(in crate::views) fact: FactWords,
    pub(in crate::views) plot: PlotWords,
    /// A kind of block.
    pub(in crate::views) kind: fn(Kind) -> &'static str,
    /// A kind of block, with its article.
    pub(in crate::views) a_kind: fn(Kind) -> &'static str,
    /// How sure a figure is.
    pub(in crate::views) evidence: fn(Evidence) -> &'static str,
    /// Which way round a sheet lay.
    pub(in crate::views) side: fn(Side) -> &'static str,
    /// How a contact print was laid.
    pub(in crate::views) through: fn(Through) -> &'static str,
    /// What a bath develops.
    pub(in crate::views) support: fn(Support) -> &'static str,
    /// What a lamp can do.
    pub(in crate::views) switches: fn(Switches) -> &'static str,
    /// What a reading was taken with.
    pub(in crate::views) measured_with: fn(MeasuredWith) -> &'static str,
    /// The colours that a paper sees.
    pub(in crate::views) sees: fn(Sees) -> &'static str,
    /// What the best pinhole is best for.
    pub(in crate::views) criterion: fn(Criterion) -> &'static str,
    /// The sky.
    pub(in crate::views) sky: fn(Sky) -> &'static str,
    /// From where a subject is lit.
    pub(in crate::views) facing: fn(Facing) -> &'static str,
}

group! {
    /// Labels and headings of what a block says.
    RowWords {
        pinhole, distance, paper_lies, format, plate, holes, hole_to_hole, mirrors, hole_off, best_hole_by,
        at_wavelength, speed_camera, speed_box, reciprocity, lengthen_from, metered, sees, sheet, thickness,
        silver, takes_along, makers_batch, opened, hands, each_move, at_each_tray, light_and_hands, water,
        all_together, based_on, suits, dilution, temperature, time, and_also, agitation, until, factor, takes,
        keeps, keeps_tray, keeps_bottle, keeps_stock, gas, hoped_for, when_spent, comes_from, usage, lamp,
        colour, wavelength, switches, when, test_on, test_at, bare, exposed_before, test_showed, coin_test,
        camera, paper, light, strip, bracket, receptor, filter, flashed, subject_at, sheet_lay, result, by_whom,
        next_time, print_of, laid, purity, density, in_one_tablet, dissolves, pack, price, also_called, form_of,
        hazard_statements, plant, plant_part, family, picked, where_picked, allowed_by, named_by, figures_from,
        batch_of, volume, kept_in, in_place_of, measured, thrown_away, process, ready_by, people, sheets_each,
        spare, carried, baths, sheets, real_times, happened, nth_sheet, earlier_text, in_the_baths,
        by_the_recipes, through_it, in_the_line, mixed_once, mixed_times, used_in, one_sheet, many_sheets,
        one_print, many_prints,
    }
}

group! {
    /// Words in what a block says.
    ValueWords {
        unreadable, not_noted, unread, scan_of, scan_of_hole, flat, curved, lies_on_wall, lies_round,
        lies_under_lid, grade, for_paper, a_bath, one_change, changes, drip, may_wait, no_later, cleared_in,
        red_lamp, no_light, two_trays, many_trays, a_part, makes, point, ten_degrees, gas_held, gas_fizzed,
        gas_stood_to, gas_stood, gas_aired, read_in, computed, dome, disc, meter, from_step, right, needs,
        right_at_step, blank, black, leak, result_not_noted, lamp_of, edge_showed, clean_to, other_amount,
        measured_by, diluted, mixed, after, in_step, first_grey, and_more, more, earlier_text, key_of,
        material_in, then_now, then_none, not_said, tested, changed, unchanged, pour, to, to_the_mark, reading,
    }
}

group! {
    /// What facts are called.
    FactWords {
        age, angle_of_view, best_pinhole, buffer_capacity, corner_loss, cost, cost_per_sheet, dead_by,
        develop_time, duration, electrons, f_number, finest_scan, from_log, gas, hands_on, ionic_strength, left,
        light, litres, makespan, measured, orientation, ph, pinhole, ready, recipe_changed, reciprocity,
        resolution, safe_time, sheets_left, sheets_until_spent, silver, soda_to_vitamin_c, speed, starts,
        stops_from_f16, stops_lost, sun_altitude, sun_azimuth, tested, time, time_metered, under_lamp, volume,
        whole_line, time_given, strength, molar, ionised, sheets_left_in,
    }
}

group! {
    /// On plots, and what they say to those who cannot see them.
    PlotWords {
        against, finished, may_lie, this_recipe, sheets, sheets_through, of_stop, carried, carried_band,
        spent_above, of_log, metered, was_right, next_lies, by_log, no_loss, judged, aside, runs, place_at,
        between, marked, among, at,
    }
}
