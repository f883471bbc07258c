//! What a paper's printing speed tells about its speed in a camera: an estimate, to be replaced by a log.

use crate::units::Range;
use crate::units::scalar::{LuminousExposure, Speed, Stops};

/// The exposure that gives the speed density: `Hm = 1000/P`.
///
/// Printing speed above zero. Source: ISO 6846:1992 for printing papers; the factor 1000 and the density of 0.60 from
/// memory, unverified.
pub fn speed_exposure(printing_speed: f64) -> LuminousExposure {
    LuminousExposure::from_lux_seconds(1000.0 / printing_speed)
}

/// What the middle of a metered scene gives the paper: `8/S` lx s.
///
/// Index above zero. Source: the standard for exposure meters, ANSI PH3.49-1971 (from memory, unverified).
pub fn middle_exposure(index: Speed) -> LuminousExposure {
    LuminousExposure::from_lux_seconds(8.0 / index.index())
}

/// An estimate of the exposure index in a camera: `EI = 0.008 P`.
///
/// Puts [`middle_exposure`] on [`speed_exposure`]. An estimate only: the printing speed is measured in tungsten light and
/// for printing. Source: own derivation.
pub fn estimated_index(printing_speed: f64) -> Speed {
    Speed::new(0.008 * printing_speed)
}

/// The printing speed that the points of a characteristic curve give, the inverse of [`speed_exposure`].
pub fn printing_speed(exposure: LuminousExposure) -> f64 {
    1000.0 / exposure.lux_seconds()
}

/// How far the estimate may be off, in stops either way: the light's colour alone makes a stop and a half between lamp and
/// shade. Own choice.
pub const ESTIMATE_SPREAD: Stops = Stops::new(1.5);

/// What papers are rated in cameras: 3 to 12, with 6 in the middle. Common practice, no source.
pub const USUAL: Range = Range {
    low: 3.0,
    best: 6.0,
    high: 12.0,
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_estimate_lies_in_the_usual_range() {
        for speed in [400.0, 500.0, 1000.0] {
            assert!(USUAL.contains(estimated_index(speed).index()));
            assert!((printing_speed(speed_exposure(speed)) - speed).abs() < 1e-9);
            let middle = middle_exposure(estimated_index(speed)).lux_seconds();
            assert!((middle - speed_exposure(speed).lux_seconds()).abs() < 1e-9);
        }
    }
}
