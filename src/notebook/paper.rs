//! The `paper` block: what the light falls on.

use crate::finding::{Finding, slug};
use crate::optics::Sees;
use crate::source::Spanned;
use crate::syntax::Node;
use crate::units::Dimension::{Length, MassPerArea, Number, Speed, Time, VolumePerArea};
use crate::units::{Amount, Range, Size};

use super::camera::size;
use super::date::When;
use super::field::{Field, Shape};
use super::keys::Keys;
use super::lower::{Figure, Lower};
use super::slot::Slot;
use super::words::{Base, Evidence};

/// A `paper` block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Paper {
    /// Resin-coated or fibre.
    pub base: Slot<Spanned<&'static str>>,
    /// Sheet size.
    pub size: Slot<Spanned<Size>>,
    /// Camera exposure index.
    pub speed: Slot<Figure>,
    /// ISO paper speed, for printing only.
    pub box_speed: Slot<Figure>,
    /// Reciprocity.
    pub reciprocity: Slot<Spanned<Reciprocity>>,
    /// The time from which reciprocity fails.
    pub threshold: Slot<Figure>,
    /// Metered to needed times, in place of an exponent.
    pub times: Vec<(Spanned<Amount>, Spanned<Amount>)>,
    /// The colours it sees.
    pub sees: Slot<Spanned<&'static str>>,
    /// Contrast grade, in words.
    pub grade: Slot<Spanned<String>>,
    /// Silver.
    pub silver: Slot<Figure>,
    /// Bath taken along.
    pub carries: Slot<Figure>,
    /// The maker's batch.
    pub batch: Slot<Spanned<String>>,
    /// When the packet was opened.
    pub opened: Slot<Spanned<When>>,
    /// Thickness.
    pub thickness: Slot<Figure>,
}

impl Paper {
    /// Its base, where it says a known one.
    pub fn known_base(&self) -> Option<Base> {
        self.base.get().and_then(|word| Base::from_word(word.value))
    }
}

/// The exponent p, at least 1, by which times beyond the threshold lengthen.
#[derive(Debug, Clone, PartialEq)]
pub struct Reciprocity {
    /// p, converted where it was written as q.
    pub p: Range,
    /// As it was written.
    pub written: String,
    /// How sure it is.
    pub evidence: Option<Evidence>,
}

/// The keys of a `paper` block.
pub(super) const FIELDS: &[Field] = &[
    Field::required("base", Shape::Word(Base::WORDS), "resin-coated or fibre"),
    Field::new("size", Shape::Own("a size, such as 4×5 in"), "sheet size"),
    Field::new("speed", Shape::Amount(&[Speed, Number]), "camera exposure index"),
    Field::new(
        "box speed",
        Shape::Amount(&[Speed, Number]),
        "ISO paper speed from the box: for printing, not for the camera",
    ),
    Field::new(
        "reciprocity",
        Shape::Own("p from 1 up, or q 0.86"),
        "how times beyond a second lengthen",
    ),
    Field::new("threshold", Shape::Amount(&[Time]), "the time from which they do"),
    Field::new(
        "times",
        Shape::Each(&Shape::Amount(&[Time])),
        "metered to needed times, in place of reciprocity",
    ),
    Field::new("sees", Shape::Word(Sees::WORDS), "the colours it sees"),
    Field::new("grade", Shape::Text, "contrast grade"),
    Field::new("silver", Shape::Amount(&[MassPerArea]), "silver in it"),
    Field::new(
        "carries",
        Shape::Amount(&[VolumePerArea]),
        "bath that a drained sheet takes along",
    ),
    Field::new("batch", Shape::Text, "the maker's batch"),
    Field::new("opened", Shape::Date, "when the packet was opened"),
    Field::new("thickness", Shape::Amount(&[Length]), "thickness"),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Paper {
    Paper {
        base: keys.word("base"),
        size: keys.slot("size", size),
        speed: keys.figure("speed"),
        box_speed: keys.figure("box speed"),
        reciprocity: sure_reciprocity(keys),
        threshold: keys.figure("threshold"),
        times: times(keys),
        sees: keys.word("sees"),
        grade: keys.text("grade"),
        silver: keys.figure("silver"),
        carries: keys.figure("carries"),
        batch: keys.text("batch"),
        opened: keys.when("opened"),
        thickness: keys.figure("thickness"),
    }
}

/// The exponent, and how sure it is where it is given as a map.
fn sure_reciprocity(keys: &mut Keys<'_, '_>) -> Slot<Spanned<Reciprocity>> {
    let evidence = keys.evidence("reciprocity");
    keys.slot("reciprocity", |lower, node| reciprocity(lower, node, evidence))
}

/// `1.2`, or `q 0.86`. Two conventions are about, so a number below 1 asks which.
fn reciprocity(lower: &mut Lower, node: &Node, evidence: Option<Evidence>) -> Option<Spanned<Reciprocity>> {
    let (amount, other) = match node.text().map(|text| (text, text.trim_start())) {
        Some((text, trimmed)) if trimmed.starts_with(['q', 'p']) => {
            let lead = text.len()
                - trimmed
                    .get(1..)
                    .map_or("", |rest| rest.trim_start_matches([' ', '=']))
                    .len();
            let amount = lower.amount_in(node, lead..text.len(), &[Number])?;
            (amount, trimmed.starts_with('q'))
        }
        _ => (lower.amount(node, &[Number])?, false),
    };
    let range = amount.value.range;
    let written = node.text().unwrap_or("").trim().to_owned();
    if other {
        if range.low <= 0.0 || range.high > 1.0 {
            lower.report(
                Finding::fault(slug::AMOUNT_OUT_OF_RANGE, amount.span, "q lies between 0 and 1")
                    .help("write `q 0.86`, or p, which is one divided by q"),
            );
            return None;
        }
        let p = range.map_monotone(|q| 1.0 / q);
        return Some(Spanned::new(Reciprocity { p, written, evidence }, amount.span));
    }
    if range.low < 1.0 {
        let help = if range.best > 0.6 {
            format!("if this is the other convention, t to the power q, write `q {written}`")
        } else {
            "p is 1 where nothing lengthens, and about 1.1 to 1.4 for papers".to_owned()
        };
        lower.report(
            Finding::fault(
                slug::AMOUNT_OUT_OF_RANGE,
                amount.span,
                "reciprocity p cannot be below 1: long times would shorten",
            )
            .help(help),
        );
        return None;
    }
    Some(Spanned::new(
        Reciprocity {
            p: range,
            written,
            evidence,
        },
        amount.span,
    ))
}

/// A table of metered to needed times.
fn times(keys: &mut Keys<'_, '_>) -> Vec<(Spanned<Amount>, Spanned<Amount>)> {
    let mut table = Vec::new();
    for entry in keys.free("times", "metered times with needed times", "10 s: 25 s") {
        let metered = keys.lower.amount(&entry.key_node(), &[Time]);
        if keys.lower.is_empty(entry, "the time that was needed") {
            continue;
        }
        let needed = keys.lower.amount(&entry.value, &[Time]);
        if let (Some(metered), Some(needed)) = (metered, needed) {
            table.push((metered, needed));
        }
    }
    table
}
