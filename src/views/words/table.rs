//! What a table of fixed words holds: a language that lacks one does not compile.

use std::collections::BTreeMap;

use super::block_table::BlockWords;
use super::site_table::SiteWords;
use crate::finding::Slug;
use crate::notebook::{Base, Premises, Role, StepKind, StepLight, Verb};
use crate::optics::SceneLight;
use crate::pantry::Form;

/// A group of words.
pub(in crate::views) trait Group {
    /// Every word with its name, as templates know it.
    fn all(&self) -> Vec<(&'static str, &'static str)>;

    /// The same, for a template or a script.
    fn by_name(&self) -> BTreeMap<&'static str, &'static str> {
        self.all().into_iter().collect()
    }
}

/// Declares a group of words, with a list of them for the tests.
macro_rules! group {
    ($(#[$meta:meta])* $name:ident { $($(#[$doc:meta])* $word:ident),* $(,)? }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
        pub(crate) struct $name {
            $($(#[$doc])* pub(crate) $word: &'static str),*
        }

        impl Group for $name {
            fn all(&self) -> Vec<(&'static str, &'static str)> {
                vec![$((stringify!($word), self.$word)),*]
            }
        }
    };
}

pub(super) use group;

/// The fixed words of one language.
///
/// A place for what is filled in is written `{}`; where there are several, `{1}`, `{2}` and so on, in whatever order the
/// language wants them.
pub(in crate::views) struct Words {
    /// Its code by ISO 639-1.
    pub(in crate::views) code: &'static str,
    /// What is printed on everything in a translation that nobody has reviewed.
    pub(in crate::views) unreviewed: Option<&'static str>,
    /// Whether a sentence goes on in small letters behind a colon.
    pub(in crate::views) small_after_colon: bool,
    pub(in crate::views) card: CardWords,
    pub(in crate::views) label: LabelWords,
    pub(in crate::views) sheet: SheetWords,
    pub(in crate::views) refused: RefusedWords,
    pub(in crate::views) cutting: CuttingWords,
    pub(in crate::views) slip: SlipWords,
    pub(in crate::views) room: RoomWords,
    pub(in crate::views) say: Sayings,
    pub(in crate::views) kinds: KindWords,
    pub(in crate::views) alt: AltWords,
    pub(in crate::views) site: &'static SiteWords,
    pub(in crate::views) block: &'static BlockWords,
    /// A bath's role.
    pub(in crate::views) role: fn(Role) -> &'static str,
    /// A light of the exposure table.
    pub(in crate::views) scene: fn(SceneLight) -> &'static str,
    /// A step of the line.
    pub(in crate::views) step_kind: fn(StepKind) -> &'static str,
    /// The light of a step.
    pub(in crate::views) light: fn(StepLight) -> &'static str,
    /// What is done at a step of mixing.
    pub(in crate::views) verb: fn(Verb) -> &'static str,
    /// What it is done in, from the vessel as it was written.
    pub(in crate::views) in_vessel: fn(&str) -> String,
    /// A paper's base.
    pub(in crate::views) base: fn(Base) -> &'static str,
    /// The form of a material.
    pub(in crate::views) form: fn(Form) -> &'static str,
    /// Where the work is done.
    pub(in crate::views) premises: fn(Premises) -> &'static str,
    /// Whether a name is a chemist's: it begins with an ion, or ends as an acid or a hydrate does.
    pub(in crate::views) is_chemical: fn(&str) -> bool,
    /// Hazard statements by code; none where the pantry's own wording is in this language.
    pub(in crate::views) statements: Option<&'static [(&'static str, &'static str)]>,
    /// What makes a pH uncertain; none where facts are worded in this language.
    pub(in crate::views) unsure: Option<UnsureWords>,
    /// What a hazard found in a block says, by rule; none where findings are worded in this language.
    pub(in crate::views) found: Option<&'static [(Slug, &'static str)]>,
}

group! {
    /// On cards, and wherever the same is said.
    CardWords {
        time, temperature, agitation, ends_when, good_for, good_for_sheets, keeps, in_tray, in_bottle, as_stock, dilution, or_time, drain,
        under_lamp, mixed_at, dead_by, started_at, untested, water, at, about, make_up_row, make_up_to, per, a_litre,
        finished, and, into, for_volume, warm_to, cool_to, begin_with_water, begin_with_part_water, stir_in, do_with, then,
        by_inspection, changes, tray, paper, within,
    }
}

group! {
    /// On labels.
    LabelWords { by_whom, volume, danger, warning, not_food }
}

group! {
    /// On weighing sheets: heads first, then lines.
    SheetWords {
        water_and_vessel, steps, shelf, shelf_afterwards, packet, there, takes, leaves, take_care, write_on_jug, notes,
        mixed_by, really_made, ph_strip,
        as_written, as_asked, for_tray, usual_depth, too_shallow, for_sheet, for_sheets, limited,
        weighed_exactly, weighed_together, of_it_water, does_the_work, wrong_form, another_form,
        other_strength, strengths_make, one_tablet, tablets_of, tablets_there, plain_powder, too_fine, spoons, by_the_spoon,
        spoon_unknown, tablets, not_on_shelf, runs_short, runs_out, not_again, plant_keeps, parts_exceed, fill_up,
        vessel_for_gas, vessel, stock_used, cooling, cooling_part, cools_slowly, in_all, takes_as_long, comes_to,
        not_sure,
        not_computed, why,
    }
}

group! {
    /// Why a volume is refused.
    RefusedWords {
        nothing, more_than_nothing, too_much, no_inside, no_depth, runs_over, no_sheets, takes_none, no_capacity,
        sizes_differ, none_there,
    }
}

group! {
    /// What makes a pH uncertain.
    UnsureWords { model, mostly, material, water, temperature, constant, pair, strong }
}

group! {
    /// On a camera's cutting template.
    CuttingWords {
        f_number, sees, hole, distance, sheet, looks_here, shiny_side, ruler, cut_first, lies_flat, on_wall, wall_free,
        on_axis, under_lid,
    }
}

group! {
    /// On log slips.
    SlipWords {
        title, back_of_sheet, date, opened_at, camera, paper, side_checked, light, meter, f_number, wanted, given, sun,
        subject, moved, wind, developer, age, bath, develop, stop, fix, ph, result, too_pale, right, too_dark, leak, stain,
        yes, no, next, initials, blank,
    }
}

group! {
    /// On the room sheet.
    RoomWords {
        title, who, people, minors, adults, minors_unknown, premises, mixed, take_care, fill_in, never_guessed, waste, asked,
        on, answer, developer_goes, stop_goes, fixer_goes, emergency, poison, first_aid, eyewash, septic, first_aider, responsible,
        caretaker, checked, nothing_mixed,
    }
}

group! {
    /// Safety lines. Where each comes from stands in the table of [`crate::views::cautions()`].
    Sayings {
        authority, acid_into_hypo, acid_into_sulphite, caustic, strong_acid, bleach, ammonia, dichromate, sulphide,
        ferricyanide, oxidiser, silver_salt, borate, poison, flammable, dry_powder, strong_carbonate, fizz, hot_water,
        alkaline, irritant, acid, eyes, plants, minors, silver, ask_first, kitchen, dry_hands,
    }
}

group! {
    /// What stands on the cards of cameras, lamps and people.
    KindWords {
        camera, f_number, light, hole_guessed, shutter, shutter_how, note, times_from, from_log, from_paper,
        give_or_take, rounded, lamp, safe, distance, line, sheet_lies, left, over, nearer, half_as_far, tested,
        lamp_untested, paper_out, back_by, screens, changing_lamp, person, name, lead, clock, lead_and_clock,
        loader, before, during, after, mix, write_times, pour_away, lamp_on, call_times, room_light, load,
        hand_over, takes_from, hands_to,
    }
}

group! {
    /// What the drawings of a card say to those who cannot see them.
    AltWords {
        danger, trays, notches, to_scale, from_above, from_side, hole_left, works_at, sees_angle,
    }
}
