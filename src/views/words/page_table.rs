//! The words of the site's pages that a reader leafs through: what stands around every text, and the pages that no one wrote.

use super::table::{Group, group};

group! {
    /// On every page: head, foot, and what stands around a text.
    PageWords {
        skip, view, light, dark, red, notebook, pages, journal, sheets, findings, facts, search, red_caution,
        fill, pressed, turns, previous, next, found_here, lasting, cautions, card, computed, kept_all,
        kept_some, page, many_pages,
    }
}

group! {
    /// On the pages that no one wrote.
    ListWords {
        pages, tags, cards, findings, of_whole, findings_language, facts, facts_are, as_data, mentioned, fact,
        value, from, journal, feed, tags_head, tag_named, all_tags, earlier_pages, later_pages, earlier_entries,
        later_entries, earlier_sheets, later_sheets, nothing, nothing_here, moved, not_kept, not_kept_here,
        no_network, what_is_kept, all_pages, stands_on,
    }
}

group! {
    /// On the page of the search, and what its script says. The script fills in the places by their names.
    SearchWords {
        ask, found, more, unscripted, some_one, some_many, none, instead, unreadable, kind_page, kind_section,
        kind_rule, kind_material, the_clock, the_card,
    }
}

group! {
    /// On the contact sheet, and what its script says.
    ContactWords {
        head, part, sift, all, developer, verdict, no_date, lost, unscanned, print_of, taken, developed, bath,
        sheet, here, in_part, needs_less, needs_more, right_at_a_step,
    }
}

group! {
    /// Of findings, whose own sentences are English.
    FindingWords {
        hazard, hazards, fault, faults, doubt, doubts, hint, hints, nothing, nothing_counts, and_quiet,
        expected, acknowledged,
    }
}
