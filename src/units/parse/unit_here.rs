//! The unit at a place: the longest run of words that is a name.

use std::ops::Range as Bytes;

use crate::units::cursor::Cursor;
use crate::units::lookup::{self, Named};
use crate::units::{Dimension, Mistake, Style, Unit, blame};

/// More words than any unit's name has.
const MOST_UNIT_WORDS: usize = 6;

/// Reads the unit that stands at the cursor, for sizes.
pub(crate) fn unit_here(
    cursor: &mut Cursor<'_>,
    accepts: &[Dimension],
    style: Style,
) -> Result<&'static Unit, Mistake> {
    let (unit, at) = unit_at(cursor, accepts, style)?;
    if accepts.is_empty() || accepts.contains(&unit.dimension) {
        return Ok(unit);
    }
    Err(blame::dimension_wrong(at, unit, accepts))
}

/// Reads the unit at the cursor: the longest run of words that is a name.
pub(super) fn unit_at(
    cursor: &mut Cursor<'_>,
    accepts: &[Dimension],
    style: Style,
) -> Result<(&'static Unit, Bytes<usize>), Mistake> {
    let start = cursor.at;
    let mut ends = [0; MOST_UNIT_WORDS];
    let mut count = 0;
    let mut previous = ' ';
    for (offset, c) in cursor.rest().char_indices() {
        let stop = matches!(c, '–' | '—' | '±' | '×' | '+' | ',' | ';')
            || (c == '-'
                && cursor
                    .rest()
                    .as_bytes()
                    .get(offset + 1)
                    .is_none_or(|next| !next.is_ascii_alphabetic()));
        let boundary = stop || c.is_whitespace() || (c.is_ascii_digit() && !previous.is_ascii_digit());
        if boundary && !previous.is_whitespace() && offset > 0 {
            if let Some(end) = ends.get_mut(count) {
                *end = start + offset;
            }
            count += 1;
        }
        if stop || count >= MOST_UNIT_WORDS {
            break;
        }
        previous = c;
        if start + offset + c.len_utf8() == cursor.text.len() && !c.is_whitespace() {
            if let Some(end) = ends.get_mut(count) {
                *end = cursor.text.len();
            }
            count += 1;
        }
    }
    let ends = ends.get(..count.min(MOST_UNIT_WORDS)).unwrap_or_default();
    for &end in ends.iter().rev() {
        let written = cursor.text.get(start..end).unwrap_or_default();
        let names = by_name(written);
        let mut chosen: Option<(usize, &'static Unit)> = None;
        let mut bare = None;
        for (_, named) in names {
            let unit = match named {
                Named::Unit(unit) => unit,
                Named::Bare(spoon) => {
                    let Some(unit) = lookup::resolve(spoon, style.system) else {
                        bare = Some(*spoon);
                        continue;
                    };
                    unit
                }
            };
            let rank = accepts
                .iter()
                .position(|wanted| *wanted == unit.dimension)
                .unwrap_or(usize::MAX);
            if chosen.is_none_or(|(best, _)| rank < best) {
                chosen = Some((rank, unit));
            }
        }
        if let Some((_, unit)) = chosen {
            cursor.at = end;
            return Ok((unit, start..end));
        }
        if let Some(spoon) = bare {
            return Err(blame::which_pint(start..end, written, spoon));
        }
    }
    let end = ends.first().copied().unwrap_or(cursor.text.len());
    Err(blame::unit_unknown(cursor.text, start..end, accepts))
}

/// The units of a name as written: with any space, a full stop at its end, and in capitals where it is a long word.
fn by_name(written: &str) -> &'static [(&'static str, Named)] {
    let exact = lookup::named(written);
    if !exact.is_empty() {
        return exact;
    }
    if written.contains(|c: char| c.is_whitespace() && c != ' ') || written.contains("  ") {
        let words: Vec<&str> = written.split_whitespace().collect();
        return lookup::named(&words.join(" "));
    }
    let bare = written.strip_suffix('.').unwrap_or(written);
    if bare.len() != written.len() && bare.len() > 1 {
        let names = lookup::named(bare);
        if !names.is_empty() {
            return names;
        }
    }
    if bare.len() >= 3 && bare.bytes().any(|byte| byte.is_ascii_uppercase()) {
        return lookup::named(&bare.to_lowercase());
    }
    &[]
}
