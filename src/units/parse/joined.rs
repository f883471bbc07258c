//! Two terms joined: the ends of a range, or a value and its tolerance.

use super::Parser;
use super::term::{Term, prefix};
use crate::units::amount::{Amount, Form, Heap, Written};
use crate::units::cursor::Cursor;
use crate::units::number::{Number, number};
use crate::units::rounding::{Digits, decimals_needed};
use crate::units::{Dimension, Mistake, Place, Range, Ratio, Unit, blame, table};

/// Between two ends, or around one value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Joint {
    To,
    PlusMinus,
}

impl Parser<'_> {
    /// What may follow a term: another end of a range, a tolerance, or nothing.
    pub(super) fn joined(&mut self, first: &Term) -> Result<Amount, Mistake> {
        let mut ahead = self.cursor;
        let before = ahead.at;
        ahead.skip_space();
        let Some(joint) = joint(&mut ahead) else {
            let (unit, heap) = self.settled(first, None)?;
            return Ok(finish(first, None, Form::Exact, unit, heap));
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
            (None, Some((unit, at))) if unit.place >= Place::Before && at.start <= first.number.at.start => {
                Term {
                    unit: None,
                    number: second,
                    heap: Heap::Plain,
                    sum: None,
                }
            }
            _ if joint == Joint::PlusMinus => self.tolerance(second, first)?,
            _ => self.term(second)?,
        };
        match joint {
            Joint::To => {
                let (unit, heap) = self.settled(first, Some(&second))?;
                let amount = finish(first, Some(&second), Form::Range, unit, heap);
                let low = end(first, unit);
                let high = end(&second, unit);
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
            Joint::PlusMinus => self.plus_minus(first, &second),
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
        let mut amount = finish(first, None, Form::PlusMinus, unit, heap);
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
}

/// The amount of one term or two, in a settled unit.
fn finish(first: &Term, second: Option<&Term>, form: Form, unit: &'static Unit, heap: Heap) -> Amount {
    let low = end(first, unit);
    let mut range = second.map_or(Range::exact(low), |second| Range::between(low, end(second, unit)));
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
            text: String::new(),
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

/// One end in the canonical unit.
fn end(term: &Term, unit: &'static Unit) -> f64 {
    let unit = term.unit.as_ref().map_or(unit, |(own, _)| own);
    term.sum.unwrap_or_else(|| unit.exactly(term.number.value))
}

/// Moves over what stands between two ends (`–`, `-`, `to`) or before a tolerance (`±`, `+-`, `+/-`).
pub(super) fn joint(cursor: &mut Cursor<'_>) -> Option<Joint> {
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
