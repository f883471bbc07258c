//! What can be read under a red lamp.

use super::srgb;

/// The contrast that print must have under a red lamp. The figures 0.05 and 7 are borrowed from web accessibility (from
/// memory, unverified).
pub const ENOUGH: f64 = 7.0;

/// The contrast of two colours under a red lamp: `(R_hi + 0.05)/(R_lo + 0.05)`, linear red alone.
///
/// Takes the red levels from 0 to 255. Assumes narrow light of 620 to 640 nm. Source: own convention, see [`ENOUGH`].
pub fn contrast(red: f64, other_red: f64) -> f64 {
    let (a, b) = (srgb::level_to_linear(red), srgb::level_to_linear(other_red));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Whether two colours differ enough under a red lamp.
pub fn is_readable(red: f64, other_red: f64) -> bool {
    contrast(red, other_red) >= ENOUGH
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn red_ink_vanishes() {
        assert!(!is_readable(255.0, 255.0));
        assert!(is_readable(0.0, 255.0) && is_readable(255.0, 0.0));
    }
}
