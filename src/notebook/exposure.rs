//! The `exposure` and `print` blocks: one sheet, or a test strip, and how it came out.

use crate::optics::{Facing, Sky};
use crate::source::Spanned;
use crate::syntax::Node;
use crate::units::Amount;
use crate::units::Dimension::{
    ColourTemperature, Illuminance, Length, LuminousExposure, Number, Resolution, Stops, Time,
};

use super::Kind;
use super::date::When;
use super::field::{Field, Shape};
use super::keys::Keys;
use super::light::{self, Light};
use super::lower::{Figure, Lower, text};
use super::slot::Slot;
use super::verdict::{self, Bracket, Strip, Verdict};
use super::words::{Side, Through, words};

words! {
    /// From which side a scan was made.
    SeenFrom {
        /// The emulsion.
        Emulsion = "emulsion",
        /// The base.
        Base = "base",
    }
}

/// An `exposure` block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Exposure {
    /// When the hole was opened.
    pub when: Slot<Spanned<When>>,
    /// The camera.
    pub camera: Slot<Spanned<String>>,
    /// The paper.
    pub paper: Slot<Spanned<String>>,
    /// The light.
    pub light: Slot<Spanned<Light>>,
    /// The sky, where the light is `sun`.
    pub sky: Slot<Spanned<&'static str>>,
    /// From where the subject is lit.
    pub facing: Slot<Spanned<&'static str>>,
    /// The light's colour.
    pub colour: Slot<Figure>,
    /// The time given; computed where it is left out.
    pub time: Slot<Figure>,
    /// A test strip.
    pub strip: Slot<Spanned<Strip>>,
    /// The meter's receptor.
    pub receptor: Slot<Spanned<Receptor>>,
    /// Stops taken by a filter.
    pub filter: Slot<Figure>,
    /// A row of exposures about the time.
    pub bracket: Slot<Spanned<Bracket>>,
    /// Light given before.
    pub preflash: Slot<Preflash>,
    /// Distance of the subject.
    pub subject: Slot<Figure>,
    /// Which way round the sheet lay.
    pub side: Slot<Spanned<&'static str>>,
    /// How it came out.
    pub result: Slot<Spanned<Verdict>>,
    /// Who made it.
    pub by: Slot<Spanned<String>>,
    /// Its scan.
    pub scan: Slot<Scan>,
    /// The one thing to change.
    pub next: Slot<Spanned<String>>,
}

/// A `print` block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Print {
    /// The exposure it was printed from.
    pub of: Slot<Spanned<String>>,
    /// When.
    pub when: Slot<Spanned<When>>,
    /// On which paper.
    pub paper: Slot<Spanned<String>>,
    /// The lamp.
    pub lamp: Slot<Spanned<String>>,
    /// From the lamp to the paper.
    pub distance: Slot<Figure>,
    /// How long.
    pub time: Slot<Figure>,
    /// A test strip.
    pub strip: Slot<Spanned<Strip>>,
    /// How it was laid.
    pub through: Slot<Spanned<&'static str>>,
    /// How it came out.
    pub result: Slot<Spanned<Verdict>>,
    /// Its scan.
    pub scan: Slot<Scan>,
}

/// The receptor of a light meter.
#[derive(Debug, Clone, PartialEq)]
pub enum Receptor {
    /// A dome.
    Dome,
    /// A flat disc.
    Flat,
    /// The constant C itself.
    Constant(Amount),
}

/// Light given before the exposure.
#[derive(Debug, Clone, PartialEq)]
pub enum Preflash {
    /// As an exposure in lux seconds.
    Exposure(Figure),
    /// By a lamp.
    Lamp {
        /// The lamp, in words.
        lamp: Slot<Spanned<String>>,
        /// Its distance.
        distance: Slot<Figure>,
        /// How long.
        time: Slot<Figure>,
    },
}

/// A scan and how it was made.
#[derive(Debug, Clone, PartialEq)]
pub struct Scan {
    /// The file, from the page's folder.
    pub file: Slot<Spanned<String>>,
    /// From which side.
    pub seen_from: Slot<Spanned<&'static str>>,
    /// Its resolution.
    pub dpi: Slot<Figure>,
    /// Density or value of paper white.
    pub white: Slot<Figure>,
}

pub(super) const SCAN: &[Field] = &[
    Field::required("file", Shape::Text, "the file, from the page's folder"),
    Field::new("seen from", Shape::Word(SeenFrom::WORDS), "emulsion or base"),
    Field::new("dpi", Shape::Amount(&[Resolution, Number]), "its resolution"),
    Field::new(
        "white",
        Shape::Amount(&[Number]),
        "the value of paper white in it",
    ),
];

pub(super) const PREFLASH: &[Field] = &[
    Field::new("lamp", Shape::Text, "the lamp"),
    Field::new("distance", Shape::Amount(&[Length]), "its distance"),
    Field::new("time", Shape::Amount(&[Time]), "how long"),
];

/// The keys of an `exposure` block.
pub(super) const FIELDS: &[Field] = &[
    Field::required("when", Shape::Date, "when the hole was opened"),
    Field::required("camera", Shape::Reference(&[Kind::Camera]), "the camera"),
    Field::required("paper", Shape::Reference(&[Kind::Paper]), "the paper"),
    Field::new(
        "light",
        Shape::Own("EV 12.5, 8000 lx, 1/60 s at f/16, ISO 100, or a scene word"),
        "the light",
    ),
    Field::new(
        "sky",
        Shape::Word(Sky::WORDS),
        "the sky, where the light is `sun`",
    ),
    Field::new(
        "facing",
        Shape::Word(Facing::WORDS),
        "from where the subject is lit",
    ),
    Field::new(
        "colour",
        Shape::Amount(&[ColourTemperature]),
        "the light's colour",
    ),
    Field::new(
        "time",
        Shape::Amount(&[Time]),
        "the time given; computed where it is left out",
    ),
    Field::new("strip", Shape::Own("6 x 1/2 stop from 10 s"), "a test strip"),
    Field::new(
        "receptor",
        Shape::Own("dome, flat, or the constant C"),
        "the meter's receptor",
    ),
    Field::new("filter", Shape::Amount(&[Stops]), "stops taken by a filter"),
    Field::new(
        "bracket",
        Shape::Own("5 x 2/3 stop"),
        "a row of exposures about the time",
    ),
    Field::new(
        "preflash",
        Shape::Own("lux seconds, or lamp, distance and time"),
        "light given before",
    ),
    Field::new("subject", Shape::Amount(&[Length]), "distance of the subject"),
    Field::new("side", Shape::Word(Side::WORDS), "which way round the sheet lay"),
    Field::new(
        "result",
        Shape::Own("right, needs +1/2 stop, right at step 3, blank, black, leak"),
        "how it came out",
    ),
    Field::new("by", Shape::Text, "who made it"),
    Field::new(
        "scan",
        Shape::Own("a file, or a map with file, seen from, dpi, white"),
        "its scan",
    ),
    Field::new("next", Shape::Text, "the one thing to change"),
];

/// The keys of a `print` block.
pub(super) const PRINT_FIELDS: &[Field] = &[
    Field::required(
        "of",
        Shape::Reference(&[Kind::Exposure]),
        "the exposure it was printed from",
    ),
    Field::required("when", Shape::Date, "when"),
    Field::required("paper", Shape::Reference(&[Kind::Paper]), "on which paper"),
    Field::new("lamp", Shape::Text, "the lamp"),
    Field::new("distance", Shape::Amount(&[Length]), "from the lamp to the paper"),
    Field::new("time", Shape::Amount(&[Time]), "how long"),
    Field::new("strip", Shape::Own("6 x 1/2 stop from 2 s"), "a test strip"),
    Field::new(
        "through",
        Shape::Word(Through::WORDS),
        "face to face, or through the base",
    ),
    Field::new(
        "result",
        Shape::Own("right, needs +1/2 stop, right at step 3, blank, black"),
        "how it came out",
    ),
    Field::new(
        "scan",
        Shape::Own("a file, or a map with file, seen from, dpi, white"),
        "its scan",
    ),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Exposure {
    Exposure {
        when: keys.when("when"),
        camera: keys.reference("camera"),
        paper: keys.reference("paper"),
        light: keys.slot("light", light::read),
        sky: keys.word("sky"),
        facing: keys.word("facing"),
        colour: keys.figure("colour"),
        time: keys.figure("time"),
        strip: keys.slot("strip", verdict::strip),
        receptor: keys.slot("receptor", receptor),
        filter: keys.figure("filter"),
        bracket: keys.slot("bracket", verdict::bracket),
        preflash: keys.slot("preflash", preflash),
        subject: keys.figure("subject"),
        side: keys.word("side"),
        result: keys.slot("result", |lower, node| verdict::verdict(lower, node, true)),
        by: keys.text("by"),
        scan: keys.slot("scan", scan),
        next: keys.text("next"),
    }
}

pub(super) fn lower_print(keys: &mut Keys<'_, '_>) -> Print {
    Print {
        of: keys.reference("of"),
        when: keys.when("when"),
        paper: keys.reference("paper"),
        lamp: keys.text("lamp"),
        distance: keys.figure("distance"),
        time: keys.figure("time"),
        strip: keys.slot("strip", verdict::strip),
        through: keys.word("through"),
        result: keys.slot("result", |lower, node| verdict::verdict(lower, node, false)),
        scan: keys.slot("scan", scan),
    }
}

fn receptor(lower: &mut Lower, node: &Node) -> Option<Spanned<Receptor>> {
    let value = match node.text().map(str::trim) {
        Some("dome") => Receptor::Dome,
        Some("flat") => Receptor::Flat,
        _ => Receptor::Constant(lower.amount(node, &[Number])?.value),
    };
    Some(Spanned::new(value, node.span))
}

fn preflash(lower: &mut Lower, node: &Node) -> Option<Preflash> {
    if node.get("value").is_some() || node.entries().is_none() {
        return lower
            .figure(node, &[LuminousExposure, Illuminance])
            .map(Preflash::Exposure);
    }
    let mut keys = Keys::open(lower, "`preflash`", node.span, node, PREFLASH, &[], false)?;
    Some(Preflash::Lamp {
        lamp: keys.text("lamp"),
        distance: keys.figure("distance"),
        time: keys.figure("time"),
    })
}

fn scan(lower: &mut Lower, node: &Node) -> Option<Scan> {
    if node.entries().is_none() {
        let file = Slot::Is(text(lower, node)?);
        return Some(Scan {
            file,
            seen_from: Slot::Absent,
            dpi: Slot::Absent,
            white: Slot::Absent,
        });
    }
    let mut keys = Keys::open(lower, "`scan`", node.span, node, SCAN, &[], false)?;
    Some(Scan {
        file: keys.text("file"),
        seen_from: keys.word("seen from"),
        dpi: keys.figure("dpi"),
        white: keys.figure("white"),
    })
}
