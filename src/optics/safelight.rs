//! How long paper may lie under a safelight.

use crate::units::scalar::{Length, Time};

/// The nearest a safelight should be. Common practice, no source.
pub const NEAREST: Length = Length::from_metres(1.0);

/// The safe time from the time at which fog first showed: half of it.
///
/// Source: ANSI IT2.26-1998, Photographic darkroom illumination (safelight conditions).
pub fn safe_time(first_fog: Time) -> Time {
    first_fog / 2.0
}

/// A safe time at another distance from a small lamp: `t (r2/r1)²`.
///
/// Assumes a point source and no bright walls; distances above zero. Source: the inverse square law.
pub fn at_distance(safe: Time, tested: Length, now: Length) -> Time {
    let ratio = now / tested;
    safe * (ratio * ratio)
}

/// The safe time under a lamp that is dimmed by switching: `t/share`, `share` of its full light above zero.
///
/// Holds for pulses; a lamp that leaks blue when dimmed is not covered. Source: own derivation, fog adds up.
pub fn dimmed(safe: Time, share: f64) -> Time {
    safe / share
}

/// The safe time under several lamps at once: `1/t = Σ 1/t_i`; nothing without lamps.
///
/// Source: own derivation, fog adds up.
pub fn together(safe: &[Time]) -> Option<Time> {
    let rate: f64 = safe.iter().map(|time| 1.0 / time.seconds()).sum();
    (!safe.is_empty() && rate > 0.0).then(|| Time::from_seconds(1.0 / rate))
}

/// The share of its allowance that a sheet used up: each stay over its own safe time, summed; 1 is the limit.
///
/// Source: own derivation, fog adds up.
pub fn used(stays: &[(Time, Time)]) -> f64 {
    stays.iter().map(|(stay, safe)| *stay / *safe).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_equal_lamps_halve_the_time() {
        let t = Time::from_minutes(8.0);
        assert!((together(&[t, t]).unwrap().minutes() - 4.0).abs() < 1e-12);
        assert_eq!(together(&[]), None);
        assert_eq!(safe_time(t).minutes(), 4.0);
        assert_eq!(dimmed(t, 0.25).minutes(), 32.0);
        assert_eq!(used(&[(t, t), (t, t * 2.0)]), 1.5);
    }
}
