//! The `camera` block: a hole, a distance and a sheet.

use crate::finding::{Finding, slug};
use crate::optics::Criterion;
use crate::source::Spanned;
use crate::syntax::Node;
use crate::units::{Amount, Dimension, Size, parse_size};

use super::field::{Field, Shape};
use super::keys::Keys;
use super::lower::{Figure, Lower};
use super::nearest;
use super::slot::Slot;

/// A `camera` block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Camera {
    /// Diameter of the hole.
    pub pinhole: Slot<Figure>,
    /// A scan of the hole.
    pub scan: Slot<Spanned<String>>,
    /// The resolution of that scan.
    pub dpi: Slot<Figure>,
    /// From the hole to the paper on its axis.
    pub distance: Slot<Figure>,
    /// How the paper lies.
    pub plane: Slot<Spanned<Plane>>,
    /// Sheet size.
    pub format: Slot<Spanned<Size>>,
    /// Thickness of the plate with the hole.
    pub foil: Slot<Figure>,
    /// How many holes.
    pub holes: Slot<Spanned<u32>>,
    /// How far apart they are.
    pub spacing: Slot<Figure>,
    /// How many mirrors.
    pub mirrors: Slot<Spanned<u32>>,
    /// What the best pinhole is best for.
    pub criterion: Slot<Spanned<&'static str>>,
    /// The wavelength that the best pinhole is computed for.
    pub wavelength: Slot<Figure>,
    /// Height of the hole against the paper's middle.
    pub offset: Slot<Figure>,
}

/// How the paper lies.
#[derive(Debug, Clone, PartialEq)]
pub enum Plane {
    /// Flat, square to the axis.
    Flat,
    /// On the wall of a round tin, opposite a hole in the wall.
    Wall {
        /// Inner radius.
        radius: Amount,
    },
    /// On half a cylinder with the hole on its axis.
    Axis {
        /// Radius.
        radius: Amount,
    },
    /// Round the wall, with the hole in the middle of the lid.
    Lid {
        /// Inner radius.
        radius: Amount,
        /// Inner height.
        height: Amount,
    },
}

const HOLES: &[Field] = &[
    Field::required("count", Shape::Whole, "how many"),
    Field::new("spacing", Shape::Amount(&[Dimension::Length]), "how far apart"),
];

/// No plate has more; a slip of the pen may.
const MOST_HOLES: u32 = 1_000_000;

const SCANNED: &[Field] = &[Field::required("scan", Shape::Text, "a scan of the hole"), DPI];

const DPI: Field = Field::new(
    "dpi",
    Shape::Amount(&[Dimension::Resolution, Dimension::Number]),
    "the resolution of the hole's scan; with it the hole is measured where no diameter is given",
);

/// The keys of a `camera` block.
pub(super) const FIELDS: &[Field] = &[
    Field::new(
        "pinhole",
        Shape::Amount(&[Dimension::Length]),
        "diameter of the hole; or give its `scan`",
    ),
    Field::new("scan", Shape::Text, "a scan of the hole"),
    DPI,
    Field::new(
        "distance",
        Shape::Amount(&[Dimension::Length]),
        "from the hole to the paper on its axis; computed for round tins",
    ),
    Field::new(
        "plane",
        Shape::Own("flat; wall, radius 50 mm; axis, radius 60 mm; lid, radius 50 mm, height 120 mm"),
        "how the paper lies",
    ),
    Field::required("format", Shape::Own("a size, such as 5×7 in"), "sheet size"),
    Field::new(
        "foil",
        Shape::Amount(&[Dimension::Length]),
        "thickness of the plate with the hole",
    ),
    Field::new(
        "holes",
        Shape::Map(HOLES),
        "how many holes, and how far apart: `3, 20 mm apart`; a number alone is how many",
    ),
    Field::new("mirrors", Shape::Whole, "how many mirrors are in the light's way"),
    Field::new(
        "criterion",
        Shape::Word(Criterion::WORDS),
        "what the best pinhole is best for",
    ),
    Field::new(
        "wavelength",
        Shape::Amount(&[Dimension::Length]),
        "the light that the best pinhole is computed for",
    ),
    Field::new(
        "offset",
        Shape::Own("a length, with a minus where the hole is lower"),
        "height of the hole against the paper's middle",
    ),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Camera {
    let (holes, spacing) = holes(keys);
    let (pinhole, scan, dpi) = pinhole(keys);
    let camera = Camera {
        pinhole,
        scan,
        dpi,
        distance: keys.figure("distance"),
        plane: keys.slot("plane", plane),
        format: keys.slot("format", size),
        foil: keys.figure("foil"),
        holes,
        spacing,
        mirrors: keys.whole("mirrors"),
        criterion: keys.word("criterion"),
        wavelength: keys.figure("wavelength"),
        offset: keys.slot("offset", offset),
    };
    let flat = match &camera.plane {
        Slot::Is(plane) => plane.value == Plane::Flat,
        Slot::Absent => true,
        Slot::Broken => false,
    };
    if camera.pinhole.is_absent() && camera.scan.is_absent() {
        missing(keys, "pinhole", "the hole's diameter, or a `scan:` of it");
    }
    if camera.distance.is_absent() && flat {
        missing(keys, "distance", "from the hole to the paper");
    }
    camera
}

/// A diameter, or the scan that it can be measured on: `pinhole: {scan: hole.png, dpi: 3200}` as well as the two keys alone.
fn pinhole(keys: &mut Keys<'_, '_>) -> (Slot<Figure>, Slot<Spanned<String>>, Slot<Figure>) {
    let scanned = keys
        .raw("pinhole")
        .is_some_and(|node| node.get("scan").is_some() && node.get("value").is_none());
    if !scanned {
        return (keys.figure("pinhole"), keys.text("scan"), keys.figure("dpi"));
    }
    let mut dpi = Slot::Absent;
    let scan = keys.slot("pinhole", |lower, node| {
        let mut keys = Keys::open(lower, "`pinhole`", node.span, node, SCANNED, &[], false)?;
        dpi = keys.figure("dpi");
        keys.text("scan").get().cloned()
    });
    if dpi.is_absent() {
        dpi = keys.figure("dpi");
    }
    (Slot::Absent, scan, dpi)
}

/// A height may lie below the middle, though no other length of a camera is below zero.
fn offset(lower: &mut Lower, node: &Node) -> Option<Figure> {
    let sign = node
        .text()
        .and_then(|text| text.chars().next())
        .filter(|sign| matches!(sign, '-' | '−'));
    let (Some(sign), Some(text)) = (sign, node.text()) else {
        return lower.figure(node, &[Dimension::Length]);
    };
    let mut amount = lower
        .amount_in(node, sign.len_utf8()..text.len(), &[Dimension::Length])?
        .value;
    amount.range = -amount.range;
    amount.written.text = format!("−{}", amount.written.text);
    Some(Figure {
        amount,
        span: node.span,
        evidence: None,
        read_from: None,
    })
}

/// `holes: 3` or `holes: 3, 20 mm apart`, or a map of the two.
fn holes(keys: &mut Keys<'_, '_>) -> (Slot<Spanned<u32>>, Slot<Figure>) {
    if keys.raw("holes").is_some_and(|node| node.text().is_some()) {
        let mut spacing = Slot::Absent;
        let count = keys.slot("holes", |lower, node| row_of_holes(lower, node, &mut spacing));
        return (count, spacing);
    }
    match keys.map("holes", |keys| (keys.whole("count"), keys.figure("spacing"))) {
        Slot::Is(both) => both,
        Slot::Broken => (Slot::Broken, Slot::Absent),
        Slot::Absent => (Slot::Absent, Slot::Absent),
    }
}

fn row_of_holes(lower: &mut Lower, node: &Node, spacing: &mut Slot<Figure>) -> Option<Spanned<u32>> {
    let text = lower.scalar(node, "how many holes")?;
    let pieces = pieces(text);
    let count = pieces.first().and_then(|(_, count)| count.parse::<u32>().ok());
    let (Some(count), None) = (count.filter(|count| *count <= MOST_HOLES), pieces.get(2)) else {
        let message = format!("how many holes are wanted here, this is `{text}`");
        lower.report(
            Finding::fault(slug::VALUE_SHAPE, node.span, message)
                .help("write `holes: 3`, or `holes: 3, 20 mm apart`"),
        );
        return None;
    };
    if let Some((range, apart)) = pieces.get(1) {
        let length = apart.strip_suffix("apart").unwrap_or(apart).trim_end().len();
        let read = lower.amount_in(node, range.start..range.start + length, &[Dimension::Length]);
        *spacing = read.map_or(Slot::Broken, |amount| {
            Slot::Is(Figure {
                span: amount.span,
                amount: amount.value,
                evidence: None,
                read_from: None,
            })
        });
    }
    Some(Spanned::new(count, node.span))
}

fn missing(keys: &mut Keys<'_, '_>, key: &str, meaning: &str) {
    if keys.incomplete() {
        return;
    }
    let head = keys.head();
    keys.lower.report(
        Finding::fault(slug::KEY_MISSING, head, format!("a camera lacks `{key}`"))
            .help(format!("add `{key}:` ({meaning})")),
    );
}

/// A sheet size.
pub(super) fn size(lower: &mut Lower, node: &Node) -> Option<Spanned<Size>> {
    let text = lower.scalar(node, "a sheet size")?;
    match parse_size(text, lower.style) {
        Ok(size) => Some(Spanned::new(size, node.span)),
        Err(mistake) => {
            let at = mistake.at.clone();
            lower.report_mistake(node, &at, mistake);
            None
        }
    }
}

/// The pieces of `text` between its commas, decimal commas aside.
fn at_commas(text: &str) -> Vec<&str> {
    let mut pieces = Vec::new();
    let mut rest = text;
    let mut from = 0;
    while let Some(comma) = rest.get(from..).and_then(|rest| rest.find(',')) {
        let at = from + comma;
        let before = rest.get(..at).unwrap_or(rest);
        let after = rest.get(at + 1..).unwrap_or("");
        let decimal =
            before.ends_with(|c: char| c.is_ascii_digit()) && after.starts_with(|c: char| c.is_ascii_digit());
        if decimal {
            from = at + 1;
        } else {
            pieces.push(before);
            rest = after;
            from = 0;
        }
    }
    pieces.push(rest);
    pieces
}

/// The same without space round them, each with its place in the text.
fn pieces(text: &str) -> Vec<(std::ops::Range<usize>, &str)> {
    let mut pieces = Vec::new();
    let mut at = 0;
    for piece in at_commas(text) {
        let lead = piece.len() - piece.trim_start().len();
        pieces.push((at + lead..at + lead + piece.trim().len(), piece.trim()));
        at += piece.len() + 1;
    }
    pieces
}

/// `flat`, or a word and its measures: `wall, radius 50 mm`.
fn plane(lower: &mut Lower, node: &Node) -> Option<Spanned<Plane>> {
    const PLANES: [&str; 4] = ["flat", "wall", "axis", "lid"];
    let text = lower.scalar(node, "how the paper lies")?;
    let pieces = pieces(text);
    let ((range, word), measures) = pieces.split_first().map(|(first, rest)| (first.clone(), rest))?;
    if !PLANES.contains(&word) {
        let mut finding = Finding::fault(
            slug::WORD_UNKNOWN,
            node.within(&range),
            format!("`{word}` is no way paper lies here"),
        );
        finding = match nearest(word, PLANES) {
            Some(near) => finding.help(format!("did you mean `{near}`?")).replace(node.within(&range), near),
            None => finding.help("known are `flat`, `wall, radius 50 mm`, `axis, radius 60 mm` and `lid, radius 50 mm, height 120 mm`"),
        };
        lower.report(finding);
        return None;
    }
    let mut radius = None;
    let mut height = None;
    for (range, piece) in measures {
        let (name, slot) = if piece.starts_with("radius") {
            ("radius", &mut radius)
        } else if piece.starts_with("height") {
            ("height", &mut height)
        } else {
            lower.report(
                Finding::fault(
                    slug::WORD_UNKNOWN,
                    node.within(range),
                    format!("`{piece}` is no measure of a plane"),
                )
                .help("write `radius 50 mm` or `height 120 mm`"),
            );
            return None;
        };
        let lead = piece
            .get(name.len()..)
            .map_or(0, |rest| rest.len() - rest.trim_start().len());
        *slot = Some(
            lower
                .amount_in(
                    node,
                    range.start + name.len() + lead..range.end,
                    &[Dimension::Length],
                )?
                .value,
        );
    }
    let value = match (word, radius, height) {
        ("flat", None, None) => Plane::Flat,
        ("wall", Some(radius), None) => Plane::Wall { radius },
        ("axis", Some(radius), None) => Plane::Axis { radius },
        ("lid", Some(radius), Some(height)) => Plane::Lid { radius, height },
        _ => {
            let wants = match word {
                "flat" => "`flat` has no measures",
                "lid" => "`lid` wants a radius and a height: `lid, radius 50 mm, height 120 mm`",
                _ => "a round plane wants its radius and nothing else: `wall, radius 50 mm`",
            };
            lower.report(Finding::fault(slug::VALUE_SHAPE, node.span, wants));
            return None;
        }
    };
    Some(Spanned::new(value, node.span))
}
