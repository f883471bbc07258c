//! The `safelight` block: a lamp, and what the fog test showed.

use crate::finding::{Finding, slug};
use crate::source::Spanned;
use crate::syntax::Node;
use crate::units::Amount;
use crate::units::Dimension::{Length, Time};

use super::Kind;
use super::date::When;
use super::field::{Field, Shape};
use super::keys::Keys;
use super::lower::{Figure, Lower};
use super::slot::Slot;
use super::words::Switches;

/// A `safelight` block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Safelight {
    /// The lamp, in words.
    pub lamp: Slot<Spanned<String>>,
    /// Its colour, in words.
    pub colour: Slot<Spanned<String>>,
    /// Its wavelength.
    pub wavelength: Slot<Figure>,
    /// From the lamp to the paper.
    pub distance: Slot<Figure>,
    /// What the lamp can do.
    pub switches: Slot<Spanned<&'static str>>,
    /// What the fog test showed.
    pub tested: Slot<FogTest>,
}

/// A fog test: coins on paper under the lamp.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FogTest {
    /// When.
    pub date: Slot<Spanned<When>>,
    /// On which paper.
    pub paper: Slot<Spanned<String>>,
    /// At which distance; else the lamp's own.
    pub at: Slot<Figure>,
    /// On paper as it comes.
    pub bare: Slot<Spanned<Fog>>,
    /// On paper already exposed to a light grey.
    pub pre_exposed: Slot<Spanned<Fog>>,
}

/// When a coin's edge first showed, or how long none did.
#[derive(Debug, Clone, PartialEq)]
pub enum Fog {
    /// The edge showed at this time.
    Showed(Amount),
    /// No edge up to this time.
    CleanTo(Amount),
}

const TESTED: &[Field] = &[
    Field::new("date", Shape::Date, "when"),
    Field::new("paper", Shape::Reference(&[Kind::Paper]), "on which paper"),
    Field::new("at", Shape::Amount(&[Length]), "at which distance"),
    Field::new(
        "bare",
        Shape::Own("a time, or clean to a time"),
        "when a coin's edge first showed on paper as it comes",
    ),
    Field::new(
        "pre-exposed",
        Shape::Own("a time, or clean to a time"),
        "the same on paper already exposed to a light grey",
    ),
];

/// The keys of a `safelight` block.
pub(super) const FIELDS: &[Field] = &[
    Field::required("lamp", Shape::Text, "the lamp"),
    Field::new("colour", Shape::Text, "its colour; or give its `wavelength`"),
    Field::new("wavelength", Shape::Amount(&[Length]), "its wavelength"),
    Field::required("distance", Shape::Amount(&[Length]), "from the lamp to the paper"),
    Field::new(
        "switches",
        Shape::Word(Switches::WORDS),
        "whether it can show other colours",
    ),
    Field::new("tested", Shape::Map(TESTED), "what the fog test showed"),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Safelight {
    let safelight = Safelight {
        lamp: keys.text("lamp"),
        colour: keys.text("colour"),
        wavelength: keys.figure("wavelength"),
        distance: keys.figure("distance"),
        switches: keys.word("switches"),
        tested: keys.map("tested", |keys| FogTest {
            date: keys.when("date"),
            paper: keys.reference("paper"),
            at: keys.figure("at"),
            bare: keys.slot("bare", fog),
            pre_exposed: keys.slot("pre-exposed", fog),
        }),
    };
    if safelight.colour.is_absent() && safelight.wavelength.is_absent() && !keys.incomplete() {
        let head = keys.head();
        keys.lower.report(
            Finding::fault(slug::KEY_MISSING, head, "a safelight lacks `colour`")
                .help("add `colour: red`, or its `wavelength:`"),
        );
    }
    safelight
}

fn fog(lower: &mut Lower, node: &Node) -> Option<Spanned<Fog>> {
    let text = lower.scalar(node, "a time")?;
    if let Some(rest) = text.trim_start().strip_prefix("clean to ") {
        let start = text.len() - rest.trim_start().len();
        let time = lower.amount_in(node, start..text.len(), &[Time])?;
        return Some(Spanned::new(Fog::CleanTo(time.value), node.span));
    }
    let time = lower.amount(node, &[Time])?;
    Some(Spanned::new(Fog::Showed(time.value), node.span))
}
