//! Sizes of sheets and cards: `5×7 in`, `10 x 12.5 cm`, `100 mm × 125 mm`, `A6`.

use super::blame::quoted;
use super::cursor::Cursor;
use super::number::number;
use super::parse::unit_here;
use super::scalar::{Area, Length};
use super::{Dimension, Mistake, Ratio, Style, Unit};
use crate::finding::slug::{AMOUNT_MALFORMED, AMOUNT_OUT_OF_RANGE, UNIT_MISSING, WORD_UNKNOWN};

/// A width and a height, in the order written.
#[derive(Debug, Clone, PartialEq)]
pub struct Size {
    /// The first of the two.
    pub width: Length,
    /// The second.
    pub height: Length,
    /// As written, without space round it.
    pub written: String,
}

impl Size {
    /// What it covers.
    pub fn area(&self) -> Area {
        self.width * self.height
    }
}

/// Sizes that have a name, in millimetres: the A series of ISO 216, the card of ISO/IEC 7810 (ID-1), and letter paper
/// (8.5 by 11 inches; common practice, no source).
const NAMED: [(&str, f64, f64); 10] = [
    ("A3", 297.0, 420.0),
    ("A4", 210.0, 297.0),
    ("A5", 148.0, 210.0),
    ("A6", 105.0, 148.0),
    ("A7", 74.0, 105.0),
    ("A8", 52.0, 74.0),
    ("ID-1", 85.6, 53.98),
    ("letter", 215.9, 279.4),
    ("half letter", 139.7, 215.9),
    ("legal", 215.9, 355.6),
];

/// Larger than any sheet that goes through a tray, in millimetres.
const LARGEST: f64 = 10_000.0;

/// Reads a size. The unit may stand once at the end or behind both numbers.
pub fn parse_size(text: &str, style: Style) -> Result<Size, Mistake> {
    let written = text.trim();
    if let Some(&(_, width, height)) = NAMED.iter().find(|(name, ..)| name.eq_ignore_ascii_case(written)) {
        return Ok(Size {
            width: Length::from_millimetres(width),
            height: Length::from_millimetres(height),
            written: written.to_owned(),
        });
    }
    let mut cursor = Cursor {
        text: text.trim_end(),
        at: text.len() - text.trim_start().len(),
    };
    let whole = cursor.at..cursor.text.len();
    if !cursor.at_signed_number() {
        return Err(if written.is_empty() {
            Mistake::new(AMOUNT_MALFORMED, 0..text.len(), "a size is missing here")
        } else {
            Mistake::new(
                WORD_UNKNOWN,
                whole,
                format!("there is no size `{}`", quoted(written)),
            )
        }
        .help("write two lengths such as `5×7 in`, or a name such as `A6`"));
    }
    let first = number(&mut cursor, style.decimal)?;
    cursor.skip_space();
    let mut first_unit = None;
    if !cursor.is_done() && !at_times(cursor) {
        first_unit = Some(unit_here(&mut cursor, &[Dimension::Length], style)?);
        cursor.skip_space();
    }
    if !take_times(&mut cursor) {
        return Err(Mistake::new(
            AMOUNT_MALFORMED,
            whole,
            format!("`{}` is one length, a size has two", quoted(written)),
        )
        .help("write two lengths such as `5×7 in`"));
    }
    cursor.skip_space();
    let second = number(&mut cursor, style.decimal)?;
    cursor.skip_space();
    let second_unit = if cursor.is_done() {
        None
    } else {
        Some(unit_here(&mut cursor, &[Dimension::Length], style)?)
    };
    cursor.skip_space();
    if !cursor.is_done() {
        return Err(Mistake::new(
            AMOUNT_MALFORMED,
            cursor.at..cursor.text.len(),
            format!("`{}` does not belong to a size", quoted(cursor.rest())),
        )
        .help("write two lengths such as `5×7 in`"));
    }
    let Some(unit) = second_unit.or(first_unit) else {
        return Err(
            Mistake::new(UNIT_MISSING, whole, format!("`{}` has no unit", quoted(written)))
                .help(format!("write `{written} in` or `{written} cm`")),
        );
    };
    let length = |value: Ratio, unit: &Unit, at: std::ops::Range<usize>| {
        let millimetres = unit.exactly(value);
        if millimetres > 0.0 && millimetres <= LARGEST {
            Ok(Length::from_millimetres(millimetres))
        } else {
            Err(Mistake::new(
                AMOUNT_OUT_OF_RANGE,
                at,
                "a sheet is larger than nothing and smaller than ten metres",
            ))
        }
    };
    Ok(Size {
        width: length(first.value, first_unit.unwrap_or(unit), first.at)?,
        height: length(second.value, unit, second.at)?,
        written: written.to_owned(),
    })
}

fn at_times(mut cursor: Cursor<'_>) -> bool {
    take_times(&mut cursor)
}

fn take_times(cursor: &mut Cursor<'_>) -> bool {
    cursor.take_any(&['×', 'x', 'X', '*']) || cursor.take_str("by ")
}
