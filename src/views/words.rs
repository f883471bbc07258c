//! The fixed words of what is printed, in one table for each language. What the author wrote is never changed.

use crate::notebook::{Base, Role, StepKind, StepLight, Verb};

/// The fixed words of one language. A place for a word is written `{}`.
pub(super) struct Words {
    /// ISO 639-1.
    pub(super) language: &'static str,
    pub(super) time: &'static str,
    pub(super) temperature: &'static str,
    pub(super) agitation: &'static str,
    pub(super) ends_when: &'static str,
    pub(super) good_for: &'static str,
    pub(super) keeps: &'static str,
    pub(super) in_tray: &'static str,
    pub(super) in_bottle: &'static str,
    pub(super) as_stock: &'static str,
    pub(super) dilution: &'static str,
    pub(super) or_time: &'static str,
    pub(super) drain: &'static str,
    pub(super) under_lamp: &'static str,
    pub(super) mixed_at: &'static str,
    pub(super) dead_by: &'static str,
    pub(super) started_at: &'static str,
    pub(super) untested: &'static str,
    pub(super) side: &'static str,
    pub(super) water: &'static str,
    pub(super) at: &'static str,
    pub(super) make_up_row: &'static str,
    pub(super) make_up_to: &'static str,
    pub(super) per: &'static str,
    pub(super) a_litre: &'static str,
    pub(super) finished: &'static str,
    pub(super) and: &'static str,
    pub(super) into: &'static str,
    pub(super) in_a: &'static str,
    pub(super) for_volume: &'static str,
    pub(super) warm_to: &'static str,
    pub(super) cool_to: &'static str,
    pub(super) begin_with_water: &'static str,
    pub(super) begin_with_part_water: &'static str,
    pub(super) stir_in: &'static str,
    pub(super) then: &'static str,
    pub(super) by_inspection: &'static str,
    pub(super) changes: &'static str,
    pub(super) tray: &'static str,
    pub(super) paper: &'static str,
    pub(super) within: &'static str,
    /// A bath's role.
    pub(super) role: fn(Role) -> &'static str,
    /// A step of the line.
    pub(super) step_kind: fn(StepKind) -> &'static str,
    /// The light of a step.
    pub(super) light: fn(StepLight) -> &'static str,
    /// What is done at a step of mixing.
    pub(super) verb: fn(Verb) -> &'static str,
    pub(super) say: Sayings,
}

/// Safety lines. Where each comes from stands in the table of [`super::cautions()`].
pub(super) struct Sayings {
    pub(super) authority: &'static str,
    pub(super) acid_into_hypo: &'static str,
    pub(super) acid_into_sulphite: &'static str,
    pub(super) caustic: &'static str,
    pub(super) strong_acid: &'static str,
    pub(super) bleach: &'static str,
    pub(super) ammonia: &'static str,
    pub(super) dichromate: &'static str,
    pub(super) sulphide: &'static str,
    pub(super) ferricyanide: &'static str,
    pub(super) oxidiser: &'static str,
    pub(super) silver_salt: &'static str,
    pub(super) borate: &'static str,
    pub(super) poison: &'static str,
    pub(super) flammable: &'static str,
    pub(super) dry_powder: &'static str,
    pub(super) strong_carbonate: &'static str,
    pub(super) fizz: &'static str,
    pub(super) hot_water: &'static str,
    pub(super) alkaline: &'static str,
    pub(super) irritant: &'static str,
    pub(super) acid: &'static str,
    pub(super) eyes: &'static str,
    pub(super) plants: &'static str,
    pub(super) minors: &'static str,
    pub(super) silver: &'static str,
    pub(super) ask_first: &'static str,
    pub(super) kitchen: &'static str,
    pub(super) dry_hands: &'static str,
}

/// The table of a language; English where there is none of its own yet, and [`Words::language`] says so.
pub(super) fn words(_language: Option<&str>) -> &'static Words {
    &ENGLISH
}

static ENGLISH: Words = Words {
    language: "en",
    time: "time",
    temperature: "temperature",
    agitation: "agitation",
    ends_when: "ends when",
    good_for: "good for",
    keeps: "keeps",
    in_tray: "{} in the tray",
    in_bottle: "{} in a full bottle",
    as_stock: "{} as stock",
    dilution: "dilute",
    or_time: "or",
    drain: "drip",
    under_lamp: "under lamp",
    mixed_at: "mixed at",
    dead_by: "dead by",
    started_at: "started at",
    untested: "untested",
    side: "{}/2",
    water: "water",
    at: "at {}",
    make_up_row: "make up to",
    make_up_to: "make up with water to",
    per: "{} per {}",
    a_litre: "litre",
    finished: "finished bath",
    and: "and",
    into: "into",
    in_a: "in a {}",
    for_volume: "for {}",
    warm_to: "warm to",
    cool_to: "cool to",
    begin_with_water: "begin with water, about",
    begin_with_part_water: "begin with the water",
    stir_in: "stir in {}",
    then: ", then ",
    by_inspection: "by eye",
    changes: "{} changes",
    tray: "tray {}",
    paper: "{} paper",
    within: "within {}",
    role: Role::word,
    step_kind: StepKind::word,
    light: |light| match light {
        StepLight::Dark => "dark",
        StepLight::Red => "red",
        StepLight::Room => "room light",
    },
    verb: Verb::word,
    say: Sayings {
        authority: "your local water authority",
        acid_into_hypo: "Keep every acid out: it frees a choking gas. Sharp smell? Lights on, air in, everyone out.",
        acid_into_sulphite: "Keep every acid out: it frees a choking gas. With asthma, leave this bath to someone else.",
        caustic: "Burns skin and blinds. Goggles and gloves. The solid into cold water, a little at a time.",
        strong_acid: "Burns skin and eyes. Goggles and gloves. Acid into water, never water into acid.",
        bleach: "Household bleach: poisonous gas with any acid or ammonia. Nothing else near it.",
        ammonia: "Ammonia: gas that hurts eyes and lungs. Outdoors or by the open window, never with bleach.",
        dichromate: "Chromate: causes cancer. For licensed rooms, not for this one.",
        sulphide: "Keep every acid out: it frees a poisonous gas that smells of eggs, then of nothing.",
        ferricyanide: "No strong acid and no heat: it frees a poisonous gas.",
        oxidiser: "Feeds fire. Away from paper, sugar, spirit and developers when dry.",
        silver_salt: "Stains and burns skin, blinds. Goggles and gloves.",
        borate: "May harm fertility and the unborn. Not for anyone pregnant or under age.",
        poison: "Poison. Gloves, good air, locked away.",
        flammable: "Catches fire. No flame, no hotplate.",
        dry_powder: "{}: hurts the eyes. Goggles, no dust, weigh slowly.",
        strong_carbonate: "The mixed bath hurts the eyes too: goggles on while pouring.",
        fizz: "Fizzes on mixing: open jug, three times the bath. Never a lid.",
        hot_water: "Hot water: an adult pours, faces away from the steam.",
        alkaline: "Soapy and alkaline: tongs or gloves, rinse splashes at once.",
        irritant: "Treat it as an irritant: tongs or gloves, wash your hands.",
        acid: "Stings the eyes. Acid into water, never water into acid.",
        eyes: "In the eye: rinse gently for several minutes, lenses out if easy, go on rinsing, get help.",
        plants: "Know the plant for sure. Gloves. Nobody tastes it.",
        minors: "An adult weighs and mixes; pupils use tongs.",
        silver: "Used fixer holds silver: collect it; ask your water authority.",
        ask_first: "Before it goes anywhere: ask {}.",
        kitchen: "Nothing goes back to the kitchen. No drink bottles.",
        dry_hands: "Dry hands for every switch. No fixer hands in the developer.",
    },
};

impl Words {
    /// `template` with its place filled.
    pub(super) fn fill(template: &str, with: &str) -> String {
        template.replacen("{}", with, 1)
    }

    /// The base a process is for.
    pub(super) fn base(&self, base: Base) -> String {
        Self::fill(self.paper, base.word())
    }
}
