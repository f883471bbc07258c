//! Reciprocity: why long exposures need more than the meter says, and how much.

use std::fmt;

use crate::units::Range;
use crate::units::scalar::{Stops, Time};

/// The threshold of the power law unless a paper states its own: one second.
///
/// Film holds the law to about one second; for paper nothing measured was found. Common practice, no source.
pub const DEFAULT_THRESHOLD: Time = Time::from_seconds(1.0);

/// The exponent of paper before a log tells better: 1.2 ± 0.15. Common practice, no source.
pub const PAPER_EXPONENT: Range = Range {
    low: 1.05,
    best: 1.2,
    high: 1.35,
};

/// Why a reciprocity cannot be used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ReciprocityError {
    /// An exponent below 1 would let long exposures need less than the meter says.
    ExponentBelowOne {
        /// As given.
        exponent: f64,
        /// The exponent it would be if it was meant as Schwarzschild's `q`, where that is likely.
        if_q: Option<f64>,
    },
    /// A time that must be above zero is not.
    TimeNotPositive,
    /// Fewer than two pairs, or pairs that do not rise.
    TableNotRising,
    /// A corrected time of the table lies below its metered time.
    TableBelowMetered,
}

impl fmt::Display for ReciprocityError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::ExponentBelowOne {
                exponent,
                if_q: Some(p),
            } => write!(
                out,
                "an exponent of {exponent} is below 1; if it is Schwarzschild's q, the exponent is 1/q = {p:.3}"
            ),
            Self::ExponentBelowOne { exponent, if_q: None } => {
                write!(
                    out,
                    "an exponent of {exponent} is below 1: long exposures would need less light"
                )
            }
            Self::TimeNotPositive => write!(out, "times must be above zero"),
            Self::TableNotRising => write!(out, "a table needs two or more pairs, each above the one before"),
            Self::TableBelowMetered => write!(out, "a corrected time lies below its metered time"),
        }
    }
}

impl std::error::Error for ReciprocityError {}

/// The exponent `p` of Schwarzschild's `q`: `E = I t^q` gives `tc = tm^(1/q)`, so `p = 1/q`.
///
/// Valid for 0 < q <= 1. Source: Schwarzschild 1900, On the deviations from the law of reciprocity for bromide of
/// silver gelatine, Astrophysical Journal 11, 89 (title from memory, unverified).
pub fn exponent_from_q(q: f64) -> Option<f64> {
    (q > 0.0 && q <= 1.0).then(|| 1.0 / q)
}

/// Refuses an exponent below 1; one between 0.6 and 1 gets the hint that it may be the other convention.
pub fn check_exponent(exponent: f64) -> Result<f64, ReciprocityError> {
    if exponent >= 1.0 && exponent.is_finite() {
        return Ok(exponent);
    }
    let if_q = (exponent > 0.6 && exponent < 1.0).then(|| 1.0 / exponent);
    Err(ReciprocityError::ExponentBelowOne { exponent, if_q })
}

/// How a metered time becomes the time to give.
#[derive(Debug, Clone, PartialEq)]
pub enum Reciprocity {
    /// The law holds: nothing is added.
    Holds,
    /// `tc = tm` up to the threshold `t0`, then `t0 (tm/t0)^p`.
    Power {
        /// The exponent `p`, 1 or more.
        exponent: f64,
        /// The threshold `t0`.
        threshold: Time,
    },
    /// `tc = tm + a tm^n`.
    Additive {
        /// The factor `a`, in seconds at one second.
        factor: Time,
        /// The exponent `n`.
        exponent: f64,
    },
    /// Pairs of metered and corrected times, interpolated.
    Table(ReciprocityTable),
}

impl Reciprocity {
    /// The power law, checked.
    pub fn power(exponent: f64, threshold: Time) -> Result<Self, ReciprocityError> {
        let exponent = check_exponent(exponent)?;
        if threshold > Time::ZERO {
            Ok(Self::Power { exponent, threshold })
        } else {
            Err(ReciprocityError::TimeNotPositive)
        }
    }

    /// The time to give for a metered time.
    ///
    /// Power: `tc = tm` for `tm <= t0`, else `t0 (tm/t0)^p`; source: Schwarzschild 1900 (see [`exponent_from_q`]),
    /// the threshold is common practice. Additive: `tc = tm + a tm^n`, with `n` = 1.62 and `a` 0.05 to 0.17 s for
    /// films in a published test; common practice for paper, no source. Table: see [`ReciprocityTable::corrected`].
    /// Metered times above zero, in seconds.
    pub fn corrected(&self, metered: Time) -> Time {
        match self {
            Self::Holds => metered,
            Self::Power { exponent, threshold } => {
                if metered <= *threshold {
                    metered
                } else {
                    *threshold * libm::pow(metered / *threshold, *exponent)
                }
            }
            Self::Additive { factor, exponent } => {
                metered + *factor * libm::pow(metered.seconds(), *exponent)
            }
            Self::Table(table) => table.corrected(metered),
        }
    }

    /// The stops that the correction adds: `log2(tc/tm)`.
    pub fn extra_stops(&self, metered: Time) -> Stops {
        Stops::from_factor(self.corrected(metered) / metered)
    }

    /// [`Reciprocity::corrected`] over a range of seconds.
    pub fn corrected_range(&self, metered: Range) -> Range {
        metered.map_monotone(|seconds| self.corrected(Time::from_seconds(seconds)).seconds())
    }
}

/// The power law in seconds with ranges for metered time and exponent; the threshold is exact.
///
/// Above the threshold the corrected time rises with the exponent, so the ends belong together. Exponents below 1
/// count as 1. Source: see [`Reciprocity::corrected`].
pub fn power_range(metered: Range, exponent: Range, threshold: Time) -> Range {
    let at = |seconds: f64, exponent: f64| {
        let power = Reciprocity::Power {
            exponent: exponent.max(1.0),
            threshold,
        };
        power.corrected(Time::from_seconds(seconds)).seconds()
    };
    Range::new(
        at(metered.low, exponent.low),
        at(metered.best, exponent.best),
        at(metered.high, exponent.high),
    )
}

/// Pairs of metered and corrected times, rising.
#[derive(Debug, Clone, PartialEq)]
pub struct ReciprocityTable {
    pairs: Vec<(Time, Time)>,
}

impl ReciprocityTable {
    /// A table of pairs (metered, corrected), two or more, each above the one before in both.
    pub fn new(pairs: Vec<(Time, Time)>) -> Result<Self, ReciprocityError> {
        if pairs.iter().any(|(metered, corrected)| {
            *metered <= Time::ZERO || !metered.is_finite() || !corrected.is_finite()
        }) {
            return Err(ReciprocityError::TimeNotPositive);
        }
        let rising = |pair: &[(Time, Time)]| match pair {
            [a, b] => a.0 < b.0 && a.1 < b.1,
            _ => false,
        };
        if pairs.len() < 2 || !pairs.windows(2).all(rising) {
            return Err(ReciprocityError::TableNotRising);
        }
        if pairs.iter().any(|(metered, corrected)| corrected < metered) {
            return Err(ReciprocityError::TableBelowMetered);
        }
        Ok(Self { pairs })
    }

    /// The pairs, rising.
    pub fn pairs(&self) -> &[(Time, Time)] {
        &self.pairs
    }

    /// The corrected time: interpolated on logarithms of both times between the pairs.
    ///
    /// Beyond the last pair the last slope goes on, as does the first below the first pair, though never below the
    /// metered time. Source: own choice; a power law is a straight line on these axes.
    pub fn corrected(&self, metered: Time) -> Time {
        let ln = |time: Time| libm::log(time.seconds());
        let Some(segment) = self.segment(metered) else {
            return metered;
        };
        let ((x0, y0), slope) = segment;
        let y = ln(y0) + slope * (ln(metered) - ln(x0));
        Time::from_seconds(libm::exp(y)).max(metered)
    }

    /// [`ReciprocityTable::corrected`] with how far it may be off: exact up to the ends of the table, and beyond them as unsure
    /// as the slope that goes on, by half the width of [`PAPER_EXPONENT`] either way, though never below the metered time.
    ///
    /// Common practice, no source.
    pub fn corrected_within(&self, metered: Time) -> Range {
        let best = self.corrected(metered).seconds();
        let beyond = match (self.pairs.first(), self.pairs.last()) {
            (Some((first, _)), _) if metered < *first => *first / metered,
            (_, Some((last, _))) if metered > *last => metered / *last,
            _ => return Range::exact(best),
        };
        let off = libm::pow(beyond, PAPER_EXPONENT.width() / 2.0);
        let low = (best / off).max(metered.seconds());
        Range::new(low.min(best), best, best * off)
    }

    /// [`ReciprocityTable::corrected_within`] over a range of seconds.
    pub fn corrected_range(&self, metered: Range) -> Range {
        let at = |seconds| self.corrected_within(Time::from_seconds(seconds));
        Range::new(at(metered.low).low, at(metered.best).best, at(metered.high).high)
    }

    /// The exponents between neighbouring pairs: `log(c2/c1)/log(m2/m1)`.
    pub fn exponents(&self) -> Vec<f64> {
        self.pairs
            .windows(2)
            .filter_map(|pair| match pair {
                [a, b] => Some(slope(*a, *b)),
                _ => None,
            })
            .collect()
    }

    /// Where a metered time's segment begins, and its slope.
    fn segment(&self, metered: Time) -> Option<((Time, Time), f64)> {
        let last = self.pairs.len().checked_sub(2)?;
        let at = self
            .pairs
            .partition_point(|(m, _)| *m <= metered)
            .saturating_sub(1)
            .min(last);
        let (a, b) = (self.pairs.get(at)?, self.pairs.get(at + 1)?);
        Some((*a, slope(*a, *b)))
    }
}

fn slope(a: (Time, Time), b: (Time, Time)) -> f64 {
    libm::log(b.1 / a.1) / libm::log(b.0 / a.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seconds(value: f64) -> Time {
        Time::from_seconds(value)
    }

    #[test]
    fn an_exponent_below_one_is_refused() {
        assert!(matches!(
            Reciprocity::power(0.86, DEFAULT_THRESHOLD),
            Err(ReciprocityError::ExponentBelowOne { if_q: Some(p), .. }) if (p - 1.163).abs() < 1e-3
        ));
        assert!(matches!(
            check_exponent(0.5),
            Err(ReciprocityError::ExponentBelowOne { if_q: None, .. })
        ));
        assert_eq!(exponent_from_q(0.8), Some(1.25));
        assert_eq!(exponent_from_q(0.0), None);
        assert!(check_exponent(f64::NAN).is_err());
    }

    #[test]
    fn a_table_of_a_power_law_is_that_law() {
        let power = Reciprocity::power(1.3, seconds(1.0)).unwrap();
        let pairs = [1.0, 10.0, 100.0].map(|t| (seconds(t), power.corrected(seconds(t))));
        let table = Reciprocity::Table(ReciprocityTable::new(pairs.to_vec()).unwrap());
        for t in [1.0, 3.0, 10.0, 77.0, 100.0, 1000.0] {
            let (a, b) = (table.corrected(seconds(t)), power.corrected(seconds(t)));
            assert!((a / b - 1.0).abs() < 1e-12, "{t}");
        }
        assert_eq!(table.corrected(seconds(0.1)), seconds(0.1));
    }

    // Two straight lines on logarithmic axes: a table of p 1.3 carried on with p 1.15 and with p 1.45.
    #[test]
    fn beyond_a_table_its_slope_is_unsure() {
        let power = |p| Reciprocity::power(p, seconds(1.0)).unwrap();
        let pairs = [1.0, 10.0, 100.0].map(|t| (seconds(t), power(1.3).corrected(seconds(t))));
        let table = ReciprocityTable::new(pairs.to_vec()).unwrap();
        assert!(table.corrected_within(seconds(100.0)).is_exact());
        let last = power(1.3).corrected(seconds(100.0));
        let on =
            |p| (last * (power(p).corrected(seconds(4000.0)) / power(p).corrected(seconds(100.0)))).seconds();
        let far = table.corrected_within(seconds(4000.0));
        for (found, wanted) in [(far.low, on(1.15)), (far.best, on(1.3)), (far.high, on(1.45))] {
            assert!((found / wanted - 1.0).abs() < 1e-9, "{found} {wanted}");
        }
        let short = table.corrected_within(seconds(0.1));
        assert!(short.low >= 0.1 && short.high > short.best);
    }

    #[test]
    fn poor_tables_are_refused() {
        let pair = |a, b| (seconds(a), seconds(b));
        assert_eq!(
            ReciprocityTable::new(vec![pair(1.0, 2.0)]),
            Err(ReciprocityError::TableNotRising)
        );
        assert_eq!(
            ReciprocityTable::new(vec![pair(1.0, 2.0), pair(10.0, 1.5)]),
            Err(ReciprocityError::TableNotRising)
        );
        assert_eq!(
            ReciprocityTable::new(vec![pair(1.0, 0.5), pair(10.0, 50.0)]),
            Err(ReciprocityError::TableBelowMetered)
        );
        assert_eq!(
            ReciprocityTable::new(vec![pair(0.0, 0.5), pair(10.0, 50.0)]),
            Err(ReciprocityError::TimeNotPositive)
        );
    }

    #[test]
    fn ranges_keep_their_order() {
        let range = power_range(Range::between(60.0, 120.0), PAPER_EXPONENT, DEFAULT_THRESHOLD);
        assert!(range.low < range.best && range.best < range.high);
        let short = power_range(Range::between(0.2, 0.5), PAPER_EXPONENT, DEFAULT_THRESHOLD);
        assert_eq!(short, Range::between(0.2, 0.5));
    }
}
