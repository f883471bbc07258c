//! Flashing paper before the picture, to tame its contrast.

use crate::units::scalar::{LuminousExposure, Stops};

/// The scene's range on the paper after a flash: `log2((Hmax + F)/(Hmin + F))`.
///
/// `darkest` is the exposure of the scene's darkest part, `range` the scene's own range. Exposures add; all above zero,
/// the flash zero or more. Source: own derivation.
pub fn range_after(darkest: LuminousExposure, range: Stops, flash: LuminousExposure) -> Stops {
    let brightest = darkest * range.factor();
    Stops::from_factor((brightest + flash) / (darkest + flash))
}

/// The stops that a flash takes from the scene's range, see [`range_after`].
pub fn compression(darkest: LuminousExposure, range: Stops, flash: LuminousExposure) -> Stops {
    range - range_after(darkest, range, flash)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_flash_changes_nothing() {
        let one = LuminousExposure::from_lux_seconds(1.0);
        let range = Stops::new(7.0);
        assert_eq!(range_after(one, range, LuminousExposure::ZERO), range);
        assert!(compression(one, range, one) > Stops::ZERO);
    }
}
