//! How numbers are rounded and turned into digits.

use super::{Range, Style};

/// The sign of negative numbers.
pub(crate) const MINUS: char = '−';
/// More decimals than any scale, meter or eye resolves; also keeps the arithmetic exact.
const MOST_DECIMALS: u8 = 12;

/// How far a number is rounded.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Digits {
    /// To this many significant digits; zeros at the end of the decimals are left out.
    Significant(u8),
    /// To exactly this many decimals of the unit shown.
    Decimals(u8),
    /// To the nearest multiple of this many canonical units: a scale's step, a third of a stop. With the step's
    /// decimals; stops and counts as fractions where the step is one.
    Step(f64),
}

/// A value rounded, and the decimals to print it with.
pub(crate) fn rounded(value: f64, digits: Digits) -> (f64, u8) {
    if !value.is_finite() {
        return (value, 0);
    }
    match digits {
        Digits::Decimals(decimals) => (value, decimals.min(MOST_DECIMALS)),
        Digits::Significant(count) => {
            let place = i32::from(count.max(1)) - 1 - exponent(value);
            if place < 0 {
                let unit = libm::pow(10.0, f64::from(-place));
                (half_away(value / unit) * unit, 0)
            } else {
                let decimals = place.min(i32::from(MOST_DECIMALS)) as u8;
                (value, trimmed(value, decimals))
            }
        }
        Digits::Step(step) if step.is_finite() && step > 0.0 => {
            let decimals = (0..=6)
                .find(|&decimals| {
                    let scaled = step * power(decimals);
                    (scaled - scaled.round()).abs() < 1e-9 * scaled && scaled.round() > 0.0
                })
                .unwrap_or(6);
            let value = half_away(value / step) * step;
            // A step such as a third has no last decimal: two say enough.
            if decimals == 6 {
                (value, trimmed(value, if step >= 0.01 { 2 } else { 6 }))
            } else {
                (value, decimals)
            }
        }
        Digits::Step(_) => (value, trimmed(value, 6)),
    }
}

/// The decimals that the numbers of a range need at these digits, without zeros at the end.
pub(crate) fn decimals_needed(range: Range, digits: Digits) -> u8 {
    rounded(range.low, digits).1.max(rounded(range.high, digits).1)
}

/// The decimals that these digits allow for the larger end of a range.
pub(crate) fn decimals_allowed(range: Range, digits: Digits) -> u8 {
    match digits {
        Digits::Significant(count) => {
            let size = range.low.abs().max(range.high.abs());
            let place = i32::from(count.max(1)) - 1 - exponent(size);
            place.clamp(0, i32::from(MOST_DECIMALS)) as u8
        }
        other => rounded(range.high, other).1,
    }
}

/// The power of ten of the first digit; zero for zero.
fn exponent(value: f64) -> i32 {
    let size = value.abs();
    if size == 0.0 || !size.is_finite() {
        return 0;
    }
    let mut exponent = libm::floor(libm::log10(size)) as i32;
    // The logarithm may be off by a hair at the powers themselves.
    while libm::pow(10.0, f64::from(exponent)) > size {
        exponent -= 1;
    }
    while libm::pow(10.0, f64::from(exponent + 1)) <= size {
        exponent += 1;
    }
    exponent
}

fn power(decimals: u8) -> f64 {
    libm::pow(10.0, f64::from(decimals))
}

/// Rounds to a whole number, halves away from zero. A value within a billionth of a half counts as one: `2.675` is
/// stored a little too small, and still means a half.
pub(crate) fn half_away(value: f64) -> f64 {
    let size = value.abs();
    let whole = libm::floor(size + size * 1e-13 + 0.5);
    if value < 0.0 { -whole } else { whole }
}

/// The fewest decimals, up to `most`, that print the same number.
fn trimmed(value: f64, most: u8) -> u8 {
    let mut parts = half_away(value * power(most));
    let mut decimals = most;
    while decimals > 0 && parts % 10.0 == 0.0 {
        parts /= 10.0;
        decimals -= 1;
    }
    decimals
}

/// A number with exactly so many decimals.
pub(crate) fn fixed(value: f64, decimals: u8, style: Style) -> String {
    if value.is_nan() {
        return "?".to_owned();
    }
    if value.is_infinite() {
        return if value < 0.0 { "−∞" } else { "∞" }.to_owned();
    }
    let decimals = decimals.min(MOST_DECIMALS);
    let parts = half_away(value * power(decimals)).abs();
    let mut digits = if parts < 1e18 {
        (parts as u64).to_string()
    } else {
        format!("{:.*}", usize::from(decimals), value.abs()).replace('.', "")
    };
    let wanted = usize::from(decimals) + 1;
    if digits.len() < wanted {
        digits.insert_str(0, &"0".repeat(wanted - digits.len()));
    }
    if decimals > 0 {
        digits.insert(digits.len() - usize::from(decimals), style.decimal.mark());
    }
    if value < 0.0 && parts > 0.0 {
        digits.insert(0, MINUS);
    }
    digits
}
