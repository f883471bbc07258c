//! Times as a clock in the darkroom is read: `45 s`, `4 min 30 s`, `1 h 30 min`, `8–12 min`, `3 days`.

use super::rounding::{Digits, fixed, half_away, rounded};
use super::show::NO_BREAK;
use super::{Language, Range, Style};

const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;
const DAY: f64 = 86_400.0;
/// From here on a time is told in days.
const TOLD_IN_DAYS: f64 = 2.0 * DAY;
/// From here on the hours beside the days are left out.
const DAYS_ALONE: f64 = 7.0 * DAY;

/// A range of seconds as text.
pub(crate) fn time(range: Range, digits: Digits, style: Style) -> String {
    let one = |seconds: f64| meaningful(seconds, digits);
    let (low, high) = (one(range.low), one(range.high));
    if range.is_exact() || low == high {
        return single(one(range.best), digits, style);
    }
    let both = |unit: f64| low % unit == 0.0 && high % unit == 0.0;
    let joined = |unit: f64, name: &str| {
        format!(
            "{}–{}{NO_BREAK}{name}",
            fixed(low / unit, 0, style),
            fixed(high / unit, 0, style)
        )
    };
    if high < 2.0 * MINUTE && !(both(MINUTE) && low > 0.0) {
        let (low, low_decimals) = rounded(low, digits);
        let (high, high_decimals) = rounded(high, digits);
        let high_decimals = if high < MINUTE { high_decimals } else { 0 };
        return format!(
            "{}–{}{NO_BREAK}s",
            fixed(low, low_decimals, style),
            fixed(high, high_decimals, style)
        );
    }
    if both(DAY) && high >= TOLD_IN_DAYS {
        return joined(DAY, days(style));
    }
    if both(HOUR) && high < TOLD_IN_DAYS {
        return joined(HOUR, "h");
    }
    if both(MINUTE) && high < 2.0 * HOUR {
        return joined(MINUTE, "min");
    }
    format!("{} – {}", single(low, digits, style), single(high, digits, style))
}

/// Rounds to the digits, and to what is read from a clock: whole seconds from a minute on; where only significant
/// digits are asked for, whole minutes from an hour on; whole hours and days from two days on.
fn meaningful(seconds: f64, digits: Digits) -> f64 {
    // Significant digits are those of the leading unit: two of them take 754 s to 13 min.
    let leading = match (digits, seconds.abs()) {
        (Digits::Significant(_), size) if size >= TOLD_IN_DAYS => DAY,
        (Digits::Significant(_), size) if size >= HOUR => HOUR,
        (Digits::Significant(_), size) if size >= MINUTE => MINUTE,
        _ => 1.0,
    };
    let (value, decimals) = rounded(seconds / leading, digits);
    let scale = libm::pow(10.0, f64::from(decimals));
    let value = half_away(value * scale) / scale * leading;
    let size = value.abs();
    let to = |unit: f64| half_away(value / unit) * unit;
    if size < MINUTE {
        value
    } else if size < HOUR {
        to(1.0)
    } else if size < TOLD_IN_DAYS {
        if matches!(digits, Digits::Significant(_)) {
            to(MINUTE)
        } else {
            to(1.0)
        }
    } else if size < DAYS_ALONE {
        to(HOUR)
    } else {
        to(DAY)
    }
}

/// What days are called; one alone is told in hours.
fn days(style: Style) -> &'static str {
    match style.language {
        Language::English => "days",
        Language::German => "Tage",
    }
}

/// One time, already rounded.
fn single(seconds: f64, digits: Digits, style: Style) -> String {
    let size = seconds.abs();
    if !(size >= MINUTE && size.is_finite()) {
        let (value, decimals) = rounded(seconds, digits);
        return format!("{}{NO_BREAK}s", fixed(value, decimals, style));
    }
    let sign = if seconds < 0.0 { "−" } else { "" };
    let parts: &[(f64, &str)] = if size >= TOLD_IN_DAYS {
        &[(DAY, days(style)), (HOUR, "h")]
    } else {
        &[(HOUR, "h"), (MINUTE, "min"), (1.0, "s")]
    };
    let mut text = sign.to_owned();
    let mut rest = size;
    for &(unit, name) in parts {
        let count = libm::floor(rest / unit);
        rest -= count * unit;
        if count > 0.0 {
            if text.len() > sign.len() {
                text.push(NO_BREAK);
            }
            text.push_str(&fixed(count, 0, style));
            text.push(NO_BREAK);
            text.push_str(name);
        }
    }
    text
}
