//! The `batch` and `session` blocks: baths as really mixed, and what they were used for.

use crate::finding::slug as rule;
use crate::source::Spanned;
use crate::syntax::Node;
use crate::units::Amount;
use crate::units::Dimension::{
    AmountOfSubstance, Count, Dilution, Mass, MassConcentration, MassFraction, Molarity, PH, Share,
    Temperature, Time, Volume,
};

use super::Kind;
use super::date::{self, When};
use super::field::{Field, Shape};
use super::keys::Keys;
use super::lower::{Figure, Lower, text};
use super::named::materials;
use super::recipe::Addition;
use super::slot::Slot;
use super::words::MeasuredWith;

/// A `batch` block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Batch {
    /// The recipe.
    pub of: Slot<Spanned<String>>,
    /// When it was mixed.
    pub made: Slot<Spanned<When>>,
    /// How much of it.
    pub volume: Slot<Figure>,
    /// Who mixed it.
    pub by: Slot<Spanned<String>>,
    /// In which bottle.
    pub bottle: Slot<Spanned<String>>,
    /// Materials for which others, or other amounts, were taken.
    pub swaps: Vec<Swap>,
    /// Whether a swap could not be read, so that nothing may be concluded of what is in it.
    pub incomplete: bool,
    /// What was measured.
    pub measured: Slot<Measured>,
    /// When it was thrown away.
    pub discarded: Slot<Spanned<When>>,
}

/// One material's swap.
#[derive(Debug, Clone, PartialEq)]
pub enum Swap {
    /// Another amount of it.
    Amount(Addition),
    /// Another material in its place.
    Material {
        /// What the recipe says.
        from: Spanned<String>,
        /// What was taken.
        to: Spanned<String>,
    },
}

/// A measured pH.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Measured {
    /// The reading.
    pub ph: Slot<Figure>,
    /// Strip or meter.
    pub with: Slot<Spanned<&'static str>>,
    /// How it was diluted before.
    pub diluted: Slot<Figure>,
    /// At which temperature.
    pub at: Slot<Figure>,
}

/// A `session` block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Session {
    /// When it began.
    pub when: Slot<Spanned<When>>,
    /// The process.
    pub process: Slot<Spanned<String>>,
    /// Recipe to batch.
    pub baths: Vec<(Spanned<String>, Spanned<String>)>,
    /// The developer's temperature.
    pub temperature: Slot<Figure>,
    /// The lamp.
    pub safelight: Slot<Spanned<String>>,
    /// The sheets.
    pub sheets: Vec<Spanned<String>>,
    /// Whether some of them may be missing, because what was written could not be read.
    pub incomplete: bool,
    /// When all had to be ready.
    pub ready: Slot<Spanned<When>>,
    /// How many people.
    pub people: Slot<Spanned<u32>>,
    /// Sheets for each.
    pub each: Slot<Spanned<u32>>,
    /// Spare share.
    pub spare: Slot<Figure>,
    /// What happened.
    pub events: Vec<Event>,
    /// Step to real time.
    pub times: Vec<(Spanned<String>, Figure)>,
    /// A weighed sheet, wet minus dry.
    pub carried: Slot<Figure>,
}

/// Something that happened in a session.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Event {
    /// When: a date and time, a time of day, or a time from the beginning.
    pub at: Slot<Spanned<Moment>>,
    /// To which sheet.
    pub sheet: Slot<Spanned<String>>,
    /// At which step.
    pub step: Slot<Spanned<String>>,
    /// What.
    pub note: Slot<Spanned<String>>,
    /// Time of first appearance.
    pub appeared: Slot<Figure>,
}

/// A moment of a session.
#[derive(Debug, Clone, PartialEq)]
pub enum Moment {
    /// A date and time.
    Date(When),
    /// A time of the session's day.
    Clock(jiff::civil::Time),
    /// So long after the beginning.
    After(Amount),
}

const MEASURED: &[Field] = &[
    Field::required("pH", Shape::Amount(&[PH]), "the reading"),
    Field::new("with", Shape::Word(MeasuredWith::WORDS), "strip or meter"),
    Field::new(
        "diluted",
        Shape::Amount(&[Dilution]),
        "how it was diluted before reading",
    ),
    Field::new("at", Shape::Amount(&[Temperature]), "at which temperature"),
];

const EVENT: &[Field] = &[
    Field::new(
        "at",
        Shape::Own("a date and time, a time of day, or a time from the beginning"),
        "when",
    ),
    Field::new(
        "sheet",
        Shape::Reference(&[Kind::Exposure, Kind::Print]),
        "to which sheet",
    ),
    Field::new("step", Shape::Text, "at which step"),
    Field::new("note", Shape::Text, "what happened"),
    Field::new("appeared", Shape::Amount(&[Time]), "time of first appearance"),
];

const SWAP: &[crate::units::Dimension] = &[
    Mass,
    Volume,
    AmountOfSubstance,
    Count,
    MassConcentration,
    Molarity,
];

/// The keys of a `batch` block.
pub(super) const BATCH_FIELDS: &[Field] = &[
    Field::required("of", Shape::Reference(&[Kind::Recipe]), "the recipe"),
    Field::required("made", Shape::Date, "when it was mixed"),
    Field::required("volume", Shape::Amount(&[Volume]), "how much of it"),
    Field::new("by", Shape::Text, "who mixed it"),
    Field::new("bottle", Shape::Text, "in which bottle"),
    Field::new(
        "swaps",
        Shape::Each(&Shape::Own("a material, or an amount")),
        "what was taken instead",
    ),
    Field::new("measured", Shape::Map(MEASURED), "what was measured"),
    Field::new("discarded", Shape::Date, "when it was thrown away"),
];

/// The keys of a `session` block.
pub(super) const FIELDS: &[Field] = &[
    Field::required("when", Shape::Date, "when it began"),
    Field::required("process", Shape::Reference(&[Kind::Process]), "the process"),
    Field::new(
        "baths",
        Shape::Each(&Shape::Reference(&[Kind::Batch])),
        "recipe to batch",
    ),
    Field::new(
        "temperature",
        Shape::Amount(&[Temperature]),
        "the developer's temperature",
    ),
    Field::new("safelight", Shape::Reference(&[Kind::Safelight]), "the lamp"),
    Field::required(
        "sheets",
        Shape::List(&Shape::Reference(&[Kind::Exposure, Kind::Print])),
        "the sheets",
    ),
    Field::new("ready", Shape::Date, "when all has to be ready"),
    Field::new("people", Shape::Whole, "how many people"),
    Field::new("each", Shape::Whole, "sheets for each"),
    Field::new(
        "spare",
        Shape::Amount(&[Share, MassFraction]),
        "spare sheets, in percent",
    ),
    Field::new("events", Shape::List(&Shape::Map(EVENT)), "what happened"),
    Field::new("times", Shape::Each(&Shape::Amount(&[Time])), "step to real time"),
    Field::new(
        "carried",
        Shape::Amount(&[Mass]),
        "a weighed sheet, wet minus dry",
    ),
];

pub(super) fn lower_batch(keys: &mut Keys<'_, '_>) -> Batch {
    let before = keys.lower.findings.len();
    let swaps = swaps(keys);
    let incomplete = keys.lower.findings.len() > before;
    Batch {
        of: keys.reference("of"),
        made: keys.when("made"),
        volume: keys.figure("volume"),
        by: keys.text("by"),
        bottle: keys.text("bottle"),
        swaps,
        incomplete,
        measured: keys.map("measured", |keys| Measured {
            ph: keys.figure("pH"),
            with: keys.word("with"),
            diluted: keys.figure("diluted"),
            at: keys.figure("at"),
        }),
        discarded: keys.when("discarded"),
    }
}

/// A swap's value is an amount where it begins like one, else a material.
fn swaps(keys: &mut Keys<'_, '_>) -> Vec<Swap> {
    let (wanted, example) = (
        "materials with what was taken instead",
        "washing soda, anhydrous: washing soda, crystals",
    );
    let mut swaps = Vec::new();
    for entry in keys.free("swaps", wanted, example) {
        if keys.lower.is_empty(entry, "a material or an amount") {
            continue;
        }
        let numeric = entry
            .value
            .text()
            .is_some_and(|text| text.trim_start().starts_with(|c: char| c.is_numeric()));
        if numeric {
            let before = keys.lower.findings.len();
            if let Some(amount) = keys.lower.figure(&entry.value, SWAP) {
                swaps.push(Swap::Amount(Addition {
                    material: entry.key.clone(),
                    amount,
                    remark: None,
                }));
            } else if let Some(finding) = keys.lower.findings.get_mut(before)
                && finding.rule == rule::AMOUNT_MALFORMED
            {
                // The amount alone would be one of the recipe's own material.
                finding.replacement = None;
                let help = format!(
                    "write either how much of `{name}` was taken, or what was taken instead; of both, first `{name}: other material`, then `other material: amount`",
                    name = entry.key.value
                );
                finding.help = Some(help);
            }
        } else if let Some(to) = text(keys.lower, &entry.value) {
            swaps.push(Swap::Material {
                from: entry.key.clone(),
                to,
            });
        }
    }
    swaps
}

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Session {
    let before = keys.lower.findings.len();
    let sheets = keys.references("sheets");
    let incomplete = keys.incomplete() || !keys.has("sheets") || keys.lower.findings.len() > before;
    Session {
        when: keys.when("when"),
        process: keys.reference("process"),
        baths: baths(keys),
        temperature: keys.figure("temperature"),
        safelight: keys.reference("safelight"),
        sheets,
        incomplete,
        ready: keys.when("ready"),
        people: keys.whole("people"),
        each: keys.whole("each"),
        spare: keys.figure("spare"),
        events: keys.maps("events", |keys| Event {
            at: keys.slot("at", moment),
            sheet: keys.reference("sheet"),
            step: keys.text("step"),
            note: keys.text("note"),
            appeared: keys.figure("appeared"),
        }),
        times: materials(keys, "times", &[Time])
            .into_iter()
            .map(|(name, time, _)| (name, time))
            .collect(),
        carried: keys.figure("carried"),
    }
}

fn baths(keys: &mut Keys<'_, '_>) -> Vec<(Spanned<String>, Spanned<String>)> {
    let mut baths = Vec::new();
    for entry in keys.free("baths", "recipes with batches", "bramble-leaf: bramble-may-15") {
        let recipe = keys.lower.reference(&entry.key_node(), &[Kind::Recipe]);
        if keys.lower.is_empty(entry, "the id of a batch") {
            continue;
        }
        let batch = keys.lower.reference(&entry.value, &[Kind::Batch]);
        if let (Some(recipe), Some(batch)) = (recipe, batch) {
            baths.push((recipe, batch));
        }
    }
    baths
}

/// `2031-05-02 19:42`, `19:42`, or `12 min`.
fn moment(lower: &mut Lower, node: &Node) -> Option<Spanned<Moment>> {
    let text = lower.scalar(node, "a time")?.trim();
    if let Some(clock) = date::clock_time(text) {
        return Some(Spanned::new(Moment::Clock(clock), node.span));
    }
    if text.get(4..5) == Some("-") {
        return lower.when(node).map(|when| when.map(Moment::Date));
    }
    let after = lower.amount(node, &[Time])?;
    Some(Spanned::new(Moment::After(after.value), node.span))
}
