//! Amounts of several parts: dilutions (`1+9`) and multiples (`6 × 500 mg`).

use super::Parser;
use super::joined::{Joint, joint};
use super::unit_here::unit_at;
use crate::units::amount::{Amount, Form, Heap, Written};
use crate::units::number::{Number, number};
use crate::units::rounding::{Digits, decimals_needed};
use crate::units::{Dimension, Mistake, Range, Ratio, blame, table};

impl Parser<'_> {
    /// `1+9` behind its plus, and `1+9–1+14`.
    pub(super) fn dilution(&mut self, first: &Number) -> Result<Amount, Mistake> {
        let unit = table::DILUTION;
        let (low, mut written) = self.parts(first)?;
        let mut ahead = self.cursor;
        ahead.skip_space();
        let mut range = Range::exact(low);
        let mut form = Form::Exact;
        if joint(&mut ahead) == Some(Joint::To) {
            ahead.skip_space();
            if ahead.at_number() {
                let start = ahead.at;
                let second = number(&mut ahead, self.style.decimal)?;
                let mut beyond = ahead;
                beyond.skip_space();
                let plus = beyond.take('+');
                self.cursor = if plus { beyond } else { ahead };
                self.cursor.skip_space();
                let (high, decimals) = if plus {
                    self.parts(&second)?
                } else {
                    let stock = first.value.to_f64();
                    (second.value.to_f64() / stock, second.decimals)
                };
                written = written.max(decimals);
                if high < low {
                    return Err(blame::reversed_dilution(start..self.cursor.at));
                }
                range = Range::between(low, high);
                form = Form::Range;
            }
        }
        let decimals = decimals_needed(range, Digits::Significant(3)).max(written);
        Ok(Amount {
            range,
            dimension: Dimension::Dilution,
            unit,
            written: Written {
                text: String::new(),
                decimals,
                significant: 3,
                form,
                signed: false,
            },
            each: None,
            about: false,
            heap: Heap::Plain,
        })
    }

    /// Parts of water to one of stock and the decimals written, with the stock read and the plus passed.
    fn parts(&mut self, stock: &Number) -> Result<(f64, u8), Mistake> {
        let water = number(&mut self.cursor, self.style.decimal)?;
        let mut ahead = self.cursor;
        ahead.skip_space();
        if ahead.take('+') {
            return Err(blame::three_parts(self.start..self.cursor.text.len()));
        }
        if stock.value.is_zero() || stock.value.is_negative() {
            return Err(blame::no_stock(stock.at.clone()));
        }
        let inverse = Ratio::new(stock.value.denominator(), stock.value.numerator());
        let parts = water
            .value
            .checked_mul(inverse)
            .map_or_else(|| water.value.to_f64() / stock.value.to_f64(), Ratio::to_f64);
        Ok((parts, water.decimals))
    }

    /// `6 × 500 mg tablets`, behind the sign.
    pub(super) fn multiple(&mut self, count: &Number) -> Result<Amount, Mistake> {
        if count.value.is_negative() || count.value.is_zero() || count.value.as_whole().is_none() {
            return Err(blame::not_a_count(count.at.clone()));
        }
        let each_start = self.cursor.at;
        let counted = self.accepts.is_empty() || self.accepts.contains(&Dimension::Count);
        let number = number(&mut self.cursor, self.style.decimal)?;
        let mut each = self.each(number, counted)?;
        let each_end = self.cursor.at;
        each.written
            .text
            .push_str(self.cursor.text.get(each_start..each_end).unwrap_or_default());
        let mut ahead = self.cursor;
        ahead.skip_space();
        let mut word = table::PIECE;
        if !ahead.is_done() {
            let (unit, _) = unit_at(&mut ahead, &[Dimension::Count], self.style)?;
            if unit.dimension == Dimension::Count {
                word = unit;
                self.cursor = ahead;
            }
        }
        let times = count.value.to_f64();
        let (range, dimension, unit) = if counted {
            (Range::exact(times), Dimension::Count, word)
        } else {
            (each.range.scale(times), each.dimension, each.unit)
        };
        Ok(Amount {
            range,
            dimension,
            unit,
            written: Written {
                text: String::new(),
                decimals: if counted {
                    count.decimals
                } else {
                    each.written.decimals
                },
                significant: count.significant.max(each.written.significant),
                form: Form::Exact,
                signed: false,
            },
            each: Some(Box::new(each)),
            about: false,
            heap: Heap::Plain,
        })
    }

    /// The amount of one of several, with its number read.
    fn each(&mut self, number: Number, counted: bool) -> Result<Amount, Mistake> {
        // What is counted may be of any kind; what is summed up must be of the kind that is wanted.
        let accepts: &[Dimension] = if counted { &[] } else { self.accepts };
        let mut inner = Parser {
            cursor: self.cursor,
            start: number.at.start,
            accepts,
            style: self.style,
        };
        let term = inner.term(number)?;
        let each = inner.joined(&term)?;
        inner.check(&each)?;
        self.cursor.at = inner.cursor.at;
        Ok(each)
    }

    /// `6 tablets of 500 mg`, behind the word.
    pub(super) fn of_each(&mut self, amount: &mut Amount) -> Result<(), Mistake> {
        let mut ahead = self.cursor;
        ahead.skip_space();
        if !(ahead.take_str("of ") || ahead.take('à') || ahead.take('@')) {
            return Ok(());
        }
        ahead.skip_space();
        if !ahead.at_number() {
            return Ok(());
        }
        self.cursor = ahead;
        let start = ahead.at;
        let number = number(&mut self.cursor, self.style.decimal)?;
        let mut each = self.each(number, true)?;
        each.written
            .text
            .push_str(self.cursor.text.get(start..self.cursor.at).unwrap_or_default());
        amount.each = Some(Box::new(each));
        Ok(())
    }
}
