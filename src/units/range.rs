//! A value that is known to lie between two ends.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// A value with its lowest, best and highest estimate, in the canonical unit of its dimension.
///
/// `low <= best <= high` holds for every range made by the functions here. Arithmetic is interval arithmetic: each
/// operand counts as independent, so `x - x` is not zero for an inexact `x`.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Range {
    /// The lowest it may be.
    pub low: f64,
    /// The best single value.
    pub best: f64,
    /// The highest it may be.
    pub high: f64,
}

impl Range {
    /// Zero, exactly.
    pub const ZERO: Self = Self::exact(0.0);

    /// A value known exactly.
    pub const fn exact(value: f64) -> Self {
        Self {
            low: value,
            best: value,
            high: value,
        }
    }

    /// Anything between two ends, given in either order; the best value is their mean.
    pub fn between(a: f64, b: f64) -> Self {
        let (low, high) = if b < a { (b, a) } else { (a, b) };
        Self::new(low, f64::midpoint(low, high), high)
    }

    /// `value` give or take `tolerance`, whose sign does not matter.
    pub fn plus_minus(value: f64, tolerance: f64) -> Self {
        let tolerance = tolerance.abs();
        Self {
            low: value - tolerance,
            best: value,
            high: value + tolerance,
        }
    }

    /// A range from its three values, put in order: `best` is moved to the nearer end if it lies outside.
    pub fn new(low: f64, best: f64, high: f64) -> Self {
        let (low, high) = if high < low { (high, low) } else { (low, high) };
        Self {
            low,
            best: best.max(low).min(high),
            high,
        }
    }

    /// Whether both ends are the same.
    pub fn is_exact(self) -> bool {
        self.low == self.high
    }

    /// Whether `value` lies within, ends included.
    pub fn contains(self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }

    /// Whether two ranges share a value.
    pub fn overlaps(self, other: Self) -> bool {
        self.low <= other.high && other.low <= self.high
    }

    /// The distance between the ends.
    pub fn width(self) -> f64 {
        self.high - self.low
    }

    /// Whether all three values are finite.
    pub fn is_finite(self) -> bool {
        self.low.is_finite() && self.best.is_finite() && self.high.is_finite()
    }

    /// Every value times `factor`, which may be negative.
    #[must_use]
    pub fn scale(self, factor: f64) -> Self {
        Self::new(self.low * factor, self.best * factor, self.high * factor)
    }

    /// The image under a function that only rises or only falls over the range.
    #[must_use]
    pub fn map_monotone(self, function: impl Fn(f64) -> f64) -> Self {
        if self.is_exact() {
            return Self::exact(function(self.best));
        }
        Self::new(function(self.low), function(self.best), function(self.high))
    }

    /// The smallest range that covers both; the best value is this one's.
    #[must_use]
    pub fn hull(self, other: Self) -> Self {
        Self::new(self.low.min(other.low), self.best, self.high.max(other.high))
    }

    /// The quotient, or nothing where the divisor may be zero.
    pub fn checked_div(self, divisor: Self) -> Option<Self> {
        (!divisor.contains(0.0)).then(|| self / divisor)
    }
}

/// As `[low, best, high]`.
impl serde::Serialize for Range {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        [self.low, self.best, self.high].serialize(serializer)
    }
}

impl From<f64> for Range {
    fn from(value: f64) -> Self {
        Self::exact(value)
    }
}

impl Add for Range {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            low: self.low + other.low,
            best: self.best + other.best,
            high: self.high + other.high,
        }
    }
}

impl Sub for Range {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self {
            low: self.low - other.high,
            best: self.best - other.best,
            high: self.high - other.low,
        }
    }
}

impl Neg for Range {
    type Output = Self;
    fn neg(self) -> Self {
        Self {
            low: -self.high,
            best: -self.best,
            high: -self.low,
        }
    }
}

impl Mul for Range {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        spread(
            self.best * other.best,
            [
                self.low * other.low,
                self.low * other.high,
                self.high * other.low,
                self.high * other.high,
            ],
        )
    }
}

impl Div for Range {
    type Output = Self;
    /// The quotient. Where the divisor may be zero the result is unbounded; see [`Range::checked_div`].
    fn div(self, other: Self) -> Self {
        if other.contains(0.0) {
            return Self {
                low: f64::NEG_INFINITY,
                best: if other.best == 0.0 {
                    f64::INFINITY
                } else {
                    self.best / other.best
                },
                high: f64::INFINITY,
            };
        }
        spread(
            self.best / other.best,
            [
                self.low / other.low,
                self.low / other.high,
                self.high / other.low,
                self.high / other.high,
            ],
        )
    }
}

fn spread(best: f64, corners: [f64; 4]) -> Range {
    let low = corners.into_iter().fold(best, f64::min);
    let high = corners.into_iter().fold(best, f64::max);
    Range { low, best, high }
}

impl Mul<f64> for Range {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        self.scale(factor)
    }
}

impl Div<f64> for Range {
    type Output = Self;
    fn div(self, divisor: f64) -> Self {
        self / Self::exact(divisor)
    }
}

impl Add<f64> for Range {
    type Output = Self;
    fn add(self, other: f64) -> Self {
        self + Self::exact(other)
    }
}

impl Sub<f64> for Range {
    type Output = Self;
    fn sub(self, other: f64) -> Self {
        self - Self::exact(other)
    }
}

#[cfg(test)]
mod tests {
    use super::Range;

    #[test]
    fn arithmetic_takes_the_worst_corners() {
        let a = Range::between(-1.0, 3.0);
        let b = Range::between(2.0, 4.0);
        assert_eq!(a + b, Range::new(1.0, 4.0, 7.0));
        assert_eq!(a - b, Range::new(-5.0, -2.0, 1.0));
        assert_eq!(a * b, Range::new(-4.0, 3.0, 12.0));
        assert_eq!(a / b, Range::new(-0.5, 1.0 / 3.0, 1.5));
        assert_eq!(-a, Range::new(-3.0, -1.0, 1.0));
        assert_eq!(a.scale(-2.0), Range::new(-6.0, -2.0, 2.0));
    }

    #[test]
    fn ends_are_put_in_order() {
        assert_eq!(Range::between(4.0, 2.0), Range::new(2.0, 3.0, 4.0));
        assert_eq!(Range::plus_minus(20.0, -2.0), Range::new(18.0, 20.0, 22.0));
        assert_eq!(
            Range::between(1.0, 2.0).map_monotone(|x| -x),
            Range::new(-2.0, -1.5, -1.0)
        );
    }

    #[test]
    fn a_divisor_that_may_be_zero_is_told() {
        assert_eq!(Range::exact(1.0).checked_div(Range::between(-1.0, 1.0)), None);
        assert!(!(Range::exact(1.0) / Range::between(0.0, 1.0)).is_finite());
    }
}
