//! One term: a number and its unit, or several that add up.

use std::ops::Range as Bytes;

use super::Parser;
use super::joined::joint;
use super::unit_here::unit_at;
use crate::units::amount::Heap;
use crate::units::cursor::Cursor;
use crate::units::number::{Number, number};
use crate::units::{Dimension, Mistake, Unit, blame, table};

/// A number and its unit, or several that add up.
#[derive(Debug)]
pub(super) struct Term {
    pub(super) number: Number,
    pub(super) unit: Option<(&'static Unit, Bytes<usize>)>,
    pub(super) heap: Heap,
    /// The sum in the canonical unit, where several numbers were written.
    pub(super) sum: Option<f64>,
}

impl Parser<'_> {
    /// The rest of a term, behind its first number.
    pub(super) fn term(&mut self, first: Number) -> Result<Term, Mistake> {
        let mut term = Term {
            number: first,
            unit: None,
            heap: Heap::Plain,
            sum: None,
        };
        let mut ahead = self.cursor;
        ahead.skip_space();
        if ahead.is_done() || joint(&mut ahead.clone()).is_some() {
            return Ok(term);
        }
        if ahead.at_number() {
            return Err(blame::two_numbers(
                ahead,
                term.number.at.start,
                self.style.decimal,
            ));
        }
        term.heap = heap(&mut ahead);
        let (unit, at) = unit_at(&mut ahead, self.accepts, self.style)?;
        if term.heap != Heap::Plain && !is_spoon(unit) {
            return Err(blame::not_a_spoon(at, term.heap));
        }
        self.cursor = ahead;
        term.unit = Some((unit, at));
        self.compound(&mut term, unit)?;
        Ok(term)
    }

    /// Further numbers that add to the first: `1 h 30 min`, `5 ft 3 in`.
    fn compound(&mut self, term: &mut Term, first: &'static Unit) -> Result<(), Mistake> {
        let adds = first.dimension == Dimension::Time || ["ft", "lb"].contains(&first.symbol);
        let mut last = first;
        if !adds {
            return Ok(());
        }
        loop {
            let mut ahead = self.cursor;
            ahead.skip_space();
            if !ahead.at_number() {
                return Ok(());
            }
            let next = number(&mut ahead, self.style.decimal)?;
            let at = next.at.clone();
            ahead.skip_space();
            if ahead.is_done() || joint(&mut ahead.clone()).is_some() {
                return Err(blame::part_without_unit(ahead.text, at, last, self.start));
            }
            let (unit, unit_at) = unit_at(&mut ahead, &[first.dimension], self.style)?;
            if unit.dimension != first.dimension || unit.factor.to_f64() >= last.factor.to_f64() {
                return Err(blame::part_out_of_order(at.start..unit_at.end, last));
            }
            let sum = term.sum.unwrap_or_else(|| first.exactly(term.number.value));
            term.sum = Some(sum + unit.exactly(next.value));
            term.number.decimals = term.number.decimals.max(next.decimals);
            term.number.significant = term.number.significant.max(3);
            last = unit;
            self.cursor = ahead;
        }
    }
}

/// Whether a unit is a spoon, which can be level or heaped.
fn is_spoon(unit: &Unit) -> bool {
    unit.dimension == Dimension::Volume
        && (unit.symbol.ends_with("tsp") || unit.symbol.ends_with("tbsp") || unit.symbol.ends_with("cup"))
}

/// Moves over `level`, `rounded` or `heaped`.
fn heap(cursor: &mut Cursor<'_>) -> Heap {
    for (word, heap) in [
        ("level ", Heap::Level),
        ("rounded ", Heap::Rounded),
        ("heaped ", Heap::Heaped),
        ("heaping ", Heap::Heaped),
    ] {
        if cursor.take_str(word) {
            cursor.skip_space();
            return heap;
        }
    }
    Heap::Plain
}

/// Moves over a unit that stands before its number: `f/`, `EV`, `ISO`, `EI`, `pH`. Stays if no number follows.
pub(super) fn prefix(cursor: &mut Cursor<'_>) -> Option<&'static Unit> {
    // Most amounts begin with a digit.
    if cursor.rest().bytes().next()?.is_ascii_digit() {
        return None;
    }
    let try_one = |word: &str| -> Option<Cursor<'_>> {
        let head = cursor.rest().get(..word.len())?;
        if !head.eq_ignore_ascii_case(word) {
            return None;
        }
        let mut ahead = *cursor;
        ahead.at += word.len();
        ahead.skip_space();
        ahead.at_signed_number().then_some(ahead)
    };
    let found = ["f/", "ƒ/", "f", "ƒ"]
        .into_iter()
        .find_map(try_one)
        .map(|ahead| (table::F_NUMBER, ahead))
        .or_else(|| try_one("EV").map(|ahead| (table::EV, ahead)))
        .or_else(|| try_one("EI").map(|ahead| (table::SPEED, ahead)))
        .or_else(|| {
            ["ISO P", "ISO"]
                .into_iter()
                .find_map(try_one)
                .map(|ahead| (table::ISO, ahead))
        })
        .or_else(|| try_one("pH").map(|ahead| (table::PH, ahead)))
        // The mark of a printing speed on a box of paper; a small p is another thing.
        .or_else(|| {
            let marked = cursor.rest().starts_with('P');
            let ahead = marked.then(|| try_one("P")).flatten();
            ahead.map(|ahead| (table::ISO, ahead))
        });
    let (unit, ahead) = found?;
    cursor.at = ahead.at;
    Some(unit)
}
