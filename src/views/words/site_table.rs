//! The words of the site: those of all its pages, and of the pages that work by a script: clocks, and recipes that scale.

use super::page_table::{ContactWords, FindingWords, ListWords, PageWords, SearchWords};
use super::table::{Group, group};

/// The words of one language.
#[derive(Debug)]
pub(crate) struct SiteWords {
    pub(crate) page: PageWords,
    pub(crate) list: ListWords,
    pub(crate) search: SearchWords,
    pub(crate) contact: ContactWords,
    pub(crate) finding: FindingWords,
    pub(crate) clock: ClockWords,
    pub(crate) clock_says: ClockSayings,
    pub(crate) scale: ScaleWords,
}

group! {
    /// On the page of a clock.
    ClockWords {
        title_of, process, card, still, dial, how_many, begin, space, line, paper_safe, out, sheets, seen, to_do,
        start_next, take_back, on_time, earlier, later, first_grey, pause, again, switches, sound, vibration, awake,
        own, letters, for_notebook, real_times, session, copy, save, check, the_line, trays, tray, time, warm, light,
        drip, how, table_one, table_many, timetable, in_and_out, sheet, no_more, keys, key_move, key_number, key_start, key_undo,
        key_on_time, key_shift, key_grey, key_pause, key_switches, key_copy, key_again, key_letters, key_seen, advice,
    }
}

group! {
    /// What a clock says while it runs, and writes for the notebook. The script fills in the places by their names.
    ClockSayings {
        idle, start, move_words, out_words, head_lying, head_waiting, head_moving, next, next_out, next_drip,
        next_drip_out, next_waiting, now, late, full, eye, moving, moving_out, paused, paused_next, done, done_next,
        dry_by, safe, hangs, lies, light_dark, light_red, light_room, call_agitate, call_agitate_many, call_soon,
        call_soon_out, call_soon_start, call_move, call_move_out, call_move_start, said_move, said_out, said_early,
        said_undo, said_shift, said_grey, said_pause, said_go, said_again, said_cleared, said_copied, said_not_copied,
        said_saved, said_kept, said_changed, said_still, said_nothing, missed_head, missed_move, missed_start,
        missed_agitate, missed_own, on, off, not_here, sound_waits, awake_not, awake_lost, told_sheet, told_none,
        told_other, told_temperature, temperature_unread, temperature_dry, told_lamp, lacks_sheets, lacks_all,
        lacks_twice, sheet_of_note, lay, by_clock, slept_note, paused_note,
    }
}

group! {
    /// Over a recipe, where it is scaled.
    ScaleWords {
        how_much, mix_by, volume, tray, sheets, packet, volume_for, volume_unit, tray_filled, tray_deep, which_tray,
        sheets_for, so_many_sheets, there_from, there_unit, there_of, which_material, as_written, beside, refused,
        whole_wanted, number_wanted, two_numbers, several_marks, too_many_digits, too_far_out, zero_below_line,
        below_line_too_large, volume_below_zero, length_below_zero, mass_below_zero, count_below_zero,
    }
}
