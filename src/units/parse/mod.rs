//! From the text of an amount to the amount.
//!
//! The grammar is small and read by hand, left to right, without going back: `[about] term [– term | ± term]`, where a
//! term is a number with its unit, several of them (`1 h 30 min`), a dilution (`1+9`), or a multiple (`6 × 500 mg`).

mod joined;
mod parts;
mod term;
mod unit_here;

use super::amount::{Amount, Heap};
use super::blame;
use super::cursor::Cursor;
use super::number::{Number, number};
use super::{Dimension, Mistake, Style};
use term::{Term, prefix};

pub(crate) use unit_here::unit_here;

/// Reads an amount that may be of any of the dimensions in `accepts`, or of any at all if that is empty.
///
/// Where a name fits several dimensions (`K`, `g/l`) the one that stands first in `accepts` is taken. The mistake tells
/// the exact word, in bytes of `text`.
pub fn parse(text: &str, accepts: &[Dimension], style: Style) -> Result<Amount, Mistake> {
    let cursor = Cursor {
        text: text.trim_end(),
        at: text.len() - text.trim_start().len(),
    };
    let mut parser = Parser {
        cursor,
        start: cursor.at,
        accepts,
        style,
    };
    parser.amount()
}

struct Parser<'a> {
    cursor: Cursor<'a>,
    start: usize,
    accepts: &'a [Dimension],
    style: Style,
}

impl Parser<'_> {
    fn amount(&mut self) -> Result<Amount, Mistake> {
        if self.cursor.is_done() {
            return Err(blame::nothing(0..self.cursor.text.len(), self.accepts));
        }
        let about = self.about();
        if let Some(mistake) = blame::one_sided(self.cursor, self.accepts) {
            return Err(mistake);
        }
        let prefix = prefix(&mut self.cursor);
        let first = number(&mut self.cursor, self.style.decimal)
            .map_err(|mistake| blame::with_example(mistake, self.accepts))?;
        let mut amount = if let Some(unit) = prefix {
            let term = Term {
                number: first,
                unit: Some((unit, self.start..self.cursor.at)),
                heap: Heap::Plain,
                sum: None,
            };
            self.joined(&term)?
        } else {
            self.unprefixed(first)?
        };
        self.cursor.skip_space();
        if !self.cursor.is_done() {
            return Err(blame::left_over(self.cursor, self.start));
        }
        amount.about = about;
        amount
            .written
            .text
            .push_str(self.cursor.text.get(self.start..).unwrap_or_default());
        self.check(&amount)?;
        Ok(amount)
    }

    /// `about`, `ca.`, `~`: whether one of them stood here.
    fn about(&mut self) -> bool {
        const WORDS: [&str; 8] = [
            "about",
            "approximately",
            "approx",
            "around",
            "roughly",
            "circa",
            "ca",
            "c",
        ];
        let mut ahead = self.cursor;
        if ahead.take_any(&['~', '≈']) {
            ahead.skip_space();
            self.cursor = ahead;
            return true;
        }
        let rest = ahead.rest();
        let length = rest.bytes().take_while(u8::is_ascii_alphabetic).count();
        let word = rest.get(..length).unwrap_or_default();
        if !WORDS.iter().any(|known| known.eq_ignore_ascii_case(word)) {
            return false;
        }
        ahead.at += length;
        let dotted = ahead.take('.');
        let spaced = ahead.skip_space();
        if dotted || spaced {
            self.cursor = ahead;
            return true;
        }
        false
    }

    /// An amount that begins with a number.
    fn unprefixed(&mut self, first: Number) -> Result<Amount, Mistake> {
        let mut ahead = self.cursor;
        ahead.skip_space();
        let mut behind = ahead;
        if behind.take(':') {
            behind.skip_space();
            if behind.at_number() {
                let second = number(&mut behind, self.style.decimal)?;
                return Err(blame::ratio(self.start..behind.at, &first, &second, self.accepts));
            }
        }
        if ahead.take('+') && !ahead.rest().starts_with(['-', '/', '−']) {
            ahead.skip_space();
            if ahead.at_number() {
                self.cursor = ahead;
                return self.dilution(&first);
            }
        }
        let mut ahead = self.cursor;
        ahead.skip_space();
        if ahead.take_any(&['×', 'x', 'X', '*']) {
            ahead.skip_space();
            if ahead.at_number() {
                self.cursor = ahead;
                return self.multiple(&first);
            }
        }
        let term = self.term(first)?;
        let mut amount = self.joined(&term)?;
        if amount.dimension == Dimension::Count && !amount.unit.symbol.is_empty() {
            self.of_each(&mut amount)?;
        }
        Ok(amount)
    }

    /// The right kind, and within what that kind can be.
    fn check(&self, amount: &Amount) -> Result<(), Mistake> {
        let at = self.start..self.cursor.at;
        if !self.accepts.is_empty() && !self.accepts.contains(&amount.dimension) {
            return Err(blame::dimension_wrong(at, amount.unit, self.accepts));
        }
        blame::out_of_range(at, self.cursor.text, amount)
    }
}
