//! How a bath is used: how warm, how long, how thin, and what it takes.

use crate::finding::{Finding, slug as rule};
use crate::source::Spanned;
use crate::syntax::Node;
use crate::units::Amount;
use crate::units::Dimension::{Area, Count, Dilution, Number, Temperature, Time};

use super::field::{Field, Shape};
use super::keys::Keys;
use super::lower::{Figure, Lower};
use super::slot::Slot;
use super::words::Support;

/// How a bath is used.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Usage {
    /// Temperature.
    pub temperature: Slot<Figure>,
    /// Time at that temperature.
    pub time: Slot<Figure>,
    /// Agitation, in words.
    pub agitation: Slot<Spanned<String>>,
    /// Working dilution.
    pub dilution: Slot<Figure>,
    /// What it takes.
    pub capacity: Slot<Spanned<Capacity>>,
    /// How time changes with temperature.
    pub at: Slot<Spanned<SecondPoint>>,
    /// Paper or film.
    pub support: Slot<Spanned<&'static str>>,
    /// What ends the step.
    pub see: Slot<Spanned<String>>,
    /// Development time over time of first appearance.
    pub factor: Slot<Figure>,
}

/// What a litre of bath takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Capacity {
    /// Sheets or an area.
    pub amount: Amount,
    /// Whether it is for a litre; otherwise for the volume that the recipe makes.
    pub per_litre: bool,
}

/// A second time at a second temperature, or the factor for ten degrees.
#[derive(Debug, Clone, PartialEq)]
pub enum SecondPoint {
    /// This time at this temperature.
    Point {
        /// Time.
        time: Amount,
        /// Temperature.
        temperature: Amount,
    },
    /// How many times faster ten degrees warmer is.
    Q10(Amount),
}

pub(super) const FIELDS: &[Field] = &[
    Field::new(
        "temperature",
        Shape::Amount(&[Temperature]),
        "the bath's temperature",
    ),
    Field::new("time", Shape::Amount(&[Time]), "how long, at that temperature"),
    Field::new("agitation", Shape::Text, "how it is moved"),
    Field::new(
        "dilution",
        Shape::Amount(&[Dilution]),
        "working dilution, such as 1+9",
    ),
    Field::new(
        "capacity",
        Shape::Own("sheets or an area, such as 40 sheets per litre"),
        "what it takes before it is spent",
    ),
    Field::new(
        "at",
        Shape::Own("a second time at a second temperature, or Q10"),
        "how the time changes with temperature",
    ),
    Field::new("for", Shape::Word(Support::WORDS), "paper or film"),
    Field::new("see", Shape::Text, "what ends the step"),
    Field::new(
        "factor",
        Shape::Amount(&[Number]),
        "development time over time of first appearance",
    ),
];

pub(super) const SECOND: &[Field] = &[
    Field::new("time", Shape::Amount(&[Time]), "a second time"),
    Field::new(
        "temperature",
        Shape::Amount(&[Temperature]),
        "at this temperature",
    ),
    Field::new(
        "Q10",
        Shape::Amount(&[Number]),
        "how many times faster ten degrees warmer is",
    ),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Usage {
    let read = keys.map("use", |keys| Usage {
        temperature: keys.figure("temperature"),
        time: keys.figure("time"),
        agitation: keys.text("agitation"),
        dilution: keys.figure("dilution"),
        capacity: keys.slot("capacity", capacity),
        at: keys.slot("at", second_point),
        support: keys.word("for"),
        see: keys.text("see"),
        factor: keys.figure("factor"),
    });
    read.get().cloned().unwrap_or_default()
}

/// `40 sheets per litre`, `25000 cm2/l`, `60 sheets`.
fn capacity(lower: &mut Lower, node: &Node) -> Option<Spanned<Capacity>> {
    let text = lower.scalar(node, "a capacity")?.trim_end();
    let per = ["per litre", "per liter", "a litre", "per l", "/l", "/ l"]
        .iter()
        .find_map(|suffix| text.strip_suffix(suffix));
    let head = per.unwrap_or(text).trim_end().len();
    let amount = lower.amount_in(node, 0..head, &[Count, Area])?;
    Some(Spanned::new(
        Capacity {
            amount: amount.value,
            per_litre: per.is_some(),
        },
        node.span,
    ))
}

/// `6 min at 24 °C`, `Q10 2.2`, or a map of either.
fn second_point(lower: &mut Lower, node: &Node) -> Option<Spanned<SecondPoint>> {
    if node.entries().is_some() {
        let mut keys = Keys::open(lower, "`at`", node.span, node, SECOND, &[], false)?;
        let factor = keys.figure("Q10");
        if let Some(factor) = factor.get() {
            return Some(Spanned::new(SecondPoint::Q10(factor.amount.clone()), node.span));
        }
        let (time, temperature) = (keys.figure("time"), keys.figure("temperature"));
        let (time, temperature) = (time.get()?.amount.clone(), temperature.get()?.amount.clone());
        return Some(Spanned::new(SecondPoint::Point { time, temperature }, node.span));
    }
    let text = lower.scalar(node, "a second time")?;
    if let Some(factor) = text.trim_start().strip_prefix("Q10") {
        let start = text.len() - factor.trim_start_matches([' ', '=', ':']).len();
        let factor = lower.amount_in(node, start..text.len(), &[Number])?;
        return Some(Spanned::new(SecondPoint::Q10(factor.value), node.span));
    }
    let Some(at) = text.find(" at ") else {
        lower.report(
            Finding::fault(
                rule::VALUE_SHAPE,
                node.span,
                "a second time names its temperature",
            )
            .help("write it as `6 min at 24 °C`, or as `Q10 2`"),
        );
        return None;
    };
    let time = lower.amount_in(node, 0..at, &[Time]);
    let temperature = lower.amount_in(node, at + " at ".len()..text.len(), &[Temperature]);
    Some(Spanned::new(
        SecondPoint::Point {
            time: time?.value,
            temperature: temperature?.value,
        },
        node.span,
    ))
}
