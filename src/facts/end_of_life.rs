//! When a bath that keeps for so long is no longer good: by the calendar where months or years were written.

use jiff::{SignedDuration, Span, ZonedDateTime};

use crate::units::Amount;

/// The moment at which what was mixed at `made` has kept for `seconds`, one of the ends of `life`. None beyond the calendar.
///
/// Of a time in months or years the whole months end on the same day of the month, or on its last day where it has no such
/// day, as durations are added in W3C XML Schema Part 2, appendix E. What is left, and any other time, is a plain duration.
pub fn end_of_life(made: &ZonedDateTime, life: &Amount, seconds: f64) -> Option<ZonedDateTime> {
    let month = match life.unit.singular {
        "month" => life.unit.to_canonical(1.0),
        "year" => life.unit.to_canonical(1.0) / 12.0,
        _ => f64::INFINITY,
    };
    // Three months are three by a hair's breadth of rounding either way.
    let whole = libm::floor(seconds / month + 1e-9);
    let left = if whole > 0.0 {
        (seconds - whole * month).max(0.0)
    } else {
        seconds
    };
    let months = Span::new().try_months(whole as i64).ok()?;
    let rest = SignedDuration::try_from_secs_f64(left).ok()?;
    made.checked_add(months).ok()?.checked_add(rest).ok()
}
