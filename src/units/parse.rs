//! From the text of an amount to the amount.
//!
//! The grammar is small and read by hand, left to right, without going back: `[about] term [– term | ± term]`, where a
//! term is a number with its unit, several of them (`1 h 30 min`), a dilution (`1+9`), or a multiple (`6 × 500 mg`).

use std::ops::Range as Bytes;

use super::amount::{Amount, Form, Heap, Written};
use super::blame;
use super::lookup::{self, Named};
use super::number::{Cursor, Number, number};
use super::show::{Digits, decimals_needed};
use super::table;
use super::{Dimension, Mistake, Range, Ratio, Style, Unit};

/// More words than any unit's name has.
const MOST_UNIT_WORDS: usize = 6;

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

/// A text for quoting in a message: short, on one line.
pub(crate) fn quoted(text: &str) -> String {
    let mut short: String = text
        .chars()
        .map(|c| if c.is_control() || c == '`' { ' ' } else { c })
        .take(40)
        .collect();
    if text.chars().nth(40).is_some() {
        short.push('…');
    }
    short
}

/// Between two ends, or around one value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Joint {
    To,
    PlusMinus,
}

/// A number and its unit, or several that add up.
#[derive(Debug)]
struct Term {
    number: Number,
    unit: Option<(&'static Unit, Bytes<usize>)>,
    heap: Heap,
    /// The sum in the canonical unit, where several numbers were written.
    sum: Option<f64>,
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
            self.joined(term)?
        } else {
            self.unprefixed(first)?
        };
        self.cursor.skip_space();
        if !self.cursor.is_done() {
            return Err(blame::left_over(self.cursor, self.start));
        }
        amount.about = about;
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
        if ahead.take(':') {
            ahead.skip_space();
            if ahead.at_number() {
                let second = number(&mut ahead, self.style.decimal)?;
                return Err(blame::ratio(self.start..ahead.at, &first, &second, self.accepts));
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
        let mut amount = self.joined(term)?;
        if amount.dimension == Dimension::Count && !amount.unit.symbol.is_empty() {
            self.of_each(&mut amount)?;
        }
        Ok(amount)
    }

    /// The rest of a term, behind its first number.
    fn term(&mut self, first: Number) -> Result<Term, Mistake> {
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
        while adds {
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
        Ok(())
    }

    /// What may follow a term: another end of a range, a tolerance, or nothing.
    fn joined(&mut self, first: Term) -> Result<Amount, Mistake> {
        let mut ahead = self.cursor;
        let before = ahead.at;
        ahead.skip_space();
        let Some(joint) = joint(&mut ahead) else {
            let (unit, heap) = self.settled(&first, None)?;
            return Ok(self.finish(&first, None, Form::Exact, unit, heap));
        };
        ahead.skip_space();
        let sign = self.cursor.text.get(before..ahead.at).unwrap_or_default();
        if !(ahead.at_signed_number() || prefix(&mut ahead.clone()).is_some()) {
            return Err(blame::half_a_range(before..ahead.at, sign));
        }
        self.cursor = ahead;
        let named = prefix(&mut self.cursor);
        let second_start = self.cursor.at;
        let second = number(&mut self.cursor, self.style.decimal)?;
        let second = match (named, &first.unit) {
            (Some(unit), _) => Term {
                unit: Some((unit, second_start..self.cursor.at)),
                number: second,
                heap: Heap::Plain,
                sum: None,
            },
            (None, Some((unit, at)))
                if unit.place >= super::Place::Before && at.start <= first.number.at.start =>
            {
                Term {
                    unit: None,
                    number: second,
                    heap: Heap::Plain,
                    sum: None,
                }
            }
            _ if joint == Joint::PlusMinus => self.tolerance(second, &first)?,
            _ => self.term(second)?,
        };
        match joint {
            Joint::To => {
                let (unit, heap) = self.settled(&first, Some(&second))?;
                let amount = self.finish(&first, Some(&second), Form::Range, unit, heap);
                let low = self.end(&first, unit);
                let high = self.end(&second, unit);
                if high < low {
                    return Err(blame::reversed(
                        self.cursor.text,
                        self.start..self.cursor.at,
                        &first.number,
                        &second.number,
                        unit,
                    ));
                }
                Ok(amount)
            }
            Joint::PlusMinus => self.plus_minus(&first, &second),
        }
    }

    /// The term behind `±`: its unit may also be a step of temperature or a bare `%`.
    fn tolerance(&mut self, second: Number, first: &Term) -> Result<Term, Mistake> {
        if first.unit.is_none() {
            return self.term(second);
        }
        let allowed = self.accepts;
        let mut wider: Vec<Dimension> = first.unit.iter().map(|(unit, _)| unit.dimension).collect();
        wider.extend([Dimension::TemperatureDifference, Dimension::Share]);
        let mut inner = Parser {
            cursor: self.cursor,
            start: self.start,
            accepts: if allowed.is_empty() { &[] } else { &wider },
            style: self.style,
        };
        let term = inner.term(second);
        let at = inner.cursor.at;
        self.cursor.at = at;
        term
    }

    fn plus_minus(&self, first: &Term, second: &Term) -> Result<Amount, Mistake> {
        let (unit, heap) = self.settled(first, first.unit.is_none().then_some(second))?;
        let mut amount = self.finish(first, None, Form::PlusMinus, unit, heap);
        let (tolerance_unit, at) = match &second.unit {
            Some((of, at)) => (*of, at.clone()),
            None => (unit, second.number.at.clone()),
        };
        if second.number.value.is_negative() {
            return Err(blame::negative_tolerance(second.number.at.clone()));
        }
        let best = amount.range.best;
        let tolerance = if tolerance_unit.dimension == Dimension::Share && unit.dimension != Dimension::Share
        {
            best.abs() * tolerance_unit.exactly(second.number.value)
        } else if tolerance_unit.dimension == unit.dimension
            || (unit.dimension == Dimension::Temperature
                && tolerance_unit.dimension == Dimension::TemperatureDifference)
        {
            if let Some(sum) = second.sum {
                sum
            } else if tolerance_unit == unit && first.sum.is_none() {
                // Both ends are computed as exact fractions, so that 20 ± 2 °C is exactly 18 to 22.
                let end = |number: Option<Ratio>| number.map(|value| unit.exactly(value));
                let low = end(first.number.value.checked_add(second.number.value.negated()));
                let high = end(first.number.value.checked_add(second.number.value));
                if let (Some(low), Some(high)) = (low, high) {
                    amount.range = Range::new(low, best, high);
                    amount.written.decimals = amount.written.decimals.max(second.number.decimals);
                    return Ok(amount);
                }
                tolerance_unit.factor.apply(second.number.value.to_f64())
            } else {
                tolerance_unit.factor.apply(second.number.value.to_f64())
            }
        } else {
            return Err(blame::tolerance_of_another_kind(at, tolerance_unit, unit));
        };
        amount.range = Range::plus_minus(best, tolerance);
        let spread = unit.factor.unapply(tolerance);
        let needed = decimals_needed(Range::exact(spread), Digits::Significant(3));
        amount.written.decimals = amount.written.decimals.max(second.number.decimals).max(needed);
        Ok(amount)
    }

    /// The unit of an amount whose terms are read, or the mistake that it has none.
    fn settled(&self, first: &Term, second: Option<&Term>) -> Result<(&'static Unit, Heap), Mistake> {
        let of_second = second.and_then(|term| term.unit.as_ref());
        let heap = match (first.heap, second) {
            (Heap::Plain, Some(second)) => second.heap,
            (heap, _) => heap,
        };
        if let Some((unit, at)) = &first.unit {
            if let Some((other, other_at)) = of_second
                && other.dimension != unit.dimension
                && !matches!(
                    other.dimension,
                    Dimension::Share | Dimension::TemperatureDifference
                )
            {
                return Err(blame::ends_of_two_kinds(
                    at.start.max(other_at.start)..other_at.end,
                    other,
                    unit,
                ));
            }
            return Ok((unit, heap));
        }
        if let Some((unit, _)) = of_second {
            return Ok((unit, heap));
        }
        let bare = if self.accepts.is_empty() {
            Some(Dimension::Number)
        } else {
            self.accepts
                .iter()
                .copied()
                .find(|dimension| dimension.takes_bare_number())
        };
        match bare {
            Some(Dimension::Count) => Ok((table::PIECE, heap)),
            Some(Dimension::Speed) => Ok((table::SPEED, heap)),
            Some(Dimension::PH) => Ok((table::PH, heap)),
            Some(_) => Ok((table::NUMBER, heap)),
            None => Err(blame::unit_missing(self.cursor, self.start, self.accepts)),
        }
    }

    /// One end in the canonical unit.
    fn end(&self, term: &Term, unit: &'static Unit) -> f64 {
        let unit = term.unit.as_ref().map_or(unit, |(own, _)| own);
        term.sum.unwrap_or_else(|| unit.exactly(term.number.value))
    }

    fn finish(
        &self,
        first: &Term,
        second: Option<&Term>,
        form: Form,
        unit: &'static Unit,
        heap: Heap,
    ) -> Amount {
        let low = self.end(first, unit);
        let mut range = second.map_or(Range::exact(low), |second| {
            Range::between(low, self.end(second, unit))
        });
        if heap != Heap::Plain {
            range = range * heap.factor();
        }
        let (a, b) = (
            &first.number,
            second.map_or(&first.number, |second| &second.number),
        );
        let compound = first.sum.is_some() || second.is_some_and(|second| second.sum.is_some());
        let form = if compound && form != Form::PlusMinus {
            Form::Compound
        } else if form != Form::PlusMinus && (a.fraction || b.fraction) {
            Form::Fraction
        } else {
            form
        };
        let mut decimals = a.decimals.max(b.decimals);
        let other = second.and_then(|second| second.unit.as_ref());
        if compound || other.is_some_and(|(other, _)| *other != unit) {
            let needed = decimals_needed(unit.range_from_canonical(range), Digits::Significant(4));
            decimals = decimals.max(needed);
        }
        Amount {
            range,
            dimension: unit.dimension,
            unit,
            written: Written {
                text: self.written(),
                decimals,
                significant: a.significant.max(b.significant),
                form,
                signed: a.signed,
            },
            each: None,
            about: false,
            heap,
        }
    }

    fn written(&self) -> String {
        self.cursor
            .text
            .get(self.text_start()..)
            .unwrap_or_default()
            .to_owned()
    }

    fn text_start(&self) -> usize {
        self.cursor.text.len() - self.cursor.text.trim_start().len()
    }

    /// `1+9` behind its plus, and `1+9–1+14`.
    fn dilution(&mut self, first: &Number) -> Result<Amount, Mistake> {
        let unit = table::DILUTION;
        let low = self.parts(first)?;
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
                let high = if plus {
                    self.parts(&second)?
                } else {
                    let stock = first.value.to_f64();
                    second.value.to_f64() / stock
                };
                if high < low {
                    return Err(blame::reversed_dilution(start..self.cursor.at));
                }
                range = Range::between(low, high);
                form = Form::Range;
            }
        }
        let decimals = decimals_needed(range, Digits::Significant(3));
        Ok(Amount {
            range,
            dimension: Dimension::Dilution,
            unit,
            written: Written {
                text: self.written(),
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

    /// Parts of water to one of stock, with the stock read and the plus passed.
    fn parts(&mut self, stock: &Number) -> Result<f64, Mistake> {
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
        Ok(water
            .value
            .checked_mul(inverse)
            .map_or_else(|| water.value.to_f64() / stock.value.to_f64(), Ratio::to_f64))
    }

    /// `6 × 500 mg tablets`, behind the sign.
    fn multiple(&mut self, count: &Number) -> Result<Amount, Mistake> {
        if count.value.is_negative() || count.value.is_zero() || count.value.as_whole().is_none() {
            return Err(blame::not_a_count(count.at.clone()));
        }
        let each_start = self.cursor.at;
        let counted = self.accepts.is_empty() || self.accepts.contains(&Dimension::Count);
        let number = number(&mut self.cursor, self.style.decimal)?;
        let mut each = self.each(number, counted)?;
        let each_end = self.cursor.at;
        each.written.text = self
            .cursor
            .text
            .get(each_start..each_end)
            .unwrap_or_default()
            .to_owned();
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
                text: self.written(),
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
        let each = inner.joined(term)?;
        inner.check(&each)?;
        self.cursor.at = inner.cursor.at;
        Ok(each)
    }

    /// `6 tablets of 500 mg`, behind the word.
    fn of_each(&mut self, amount: &mut Amount) -> Result<(), Mistake> {
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
        each.written.text = self
            .cursor
            .text
            .get(start..self.cursor.at)
            .unwrap_or_default()
            .to_owned();
        amount.each = Some(Box::new(each));
        Ok(())
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
fn prefix(cursor: &mut Cursor<'_>) -> Option<&'static Unit> {
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
        .or_else(|| try_one("pH").map(|ahead| (table::PH, ahead)));
    let (unit, ahead) = found?;
    cursor.at = ahead.at;
    Some(unit)
}

/// Moves over what stands between two ends (`–`, `-`, `to`) or before a tolerance (`±`, `+-`, `+/-`).
fn joint(cursor: &mut Cursor<'_>) -> Option<Joint> {
    match cursor.peek()? {
        '±' => {
            cursor.take('±');
            Some(Joint::PlusMinus)
        }
        '+' if cursor.take_str("+-") || cursor.take_str("+/-") || cursor.take_str("+−") => {
            Some(Joint::PlusMinus)
        }
        '–' | '—' | '‐' | '‑' | '‒' | '-' | '−' => {
            cursor.take_any(&['–', '—', '‐', '‑', '‒', '-', '−']);
            Some(Joint::To)
        }
        't' => {
            let mut ahead = *cursor;
            (ahead.take_str("to") && ahead.skip_space()).then(|| {
                *cursor = ahead;
                Joint::To
            })
        }
        _ => None,
    }
}

/// Reads the unit at the cursor: the longest run of words that is a name.
fn unit_at(
    cursor: &mut Cursor<'_>,
    accepts: &[Dimension],
    style: Style,
) -> Result<(&'static Unit, Bytes<usize>), Mistake> {
    let start = cursor.at;
    let mut ends = [0; MOST_UNIT_WORDS];
    let mut count = 0;
    let mut previous = ' ';
    for (offset, c) in cursor.rest().char_indices() {
        let stop = matches!(c, '–' | '—' | '±' | '×' | '+')
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
