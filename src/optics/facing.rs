//! The light on an upright subject, from the sun's altitude and the subject's facing.
//!
//! Light on level ground must not be used for a low sun: a wall that faces it gets two stops more.

use crate::units::Range;
use crate::units::scalar::{Angle, ExposureValue, Stops};

use super::ev::{self, Receptor};
use super::scene::{Facing, Sky};
use super::sky;

/// Exposure values at speed 100 with C = 330: the sun's altitude; an upright subject front lit, lit from 45°, in its own
/// shadow; and level ground.
///
/// Source: own computation with the clear-sky model of Ineichen and Perez 2002, A new airmass independent formulation for
/// the Linke turbidity coefficient, Solar Energy 73, 151 (title from memory, unverified), turbidity 3, even sky, ground
/// of albedo 0.2, efficacies of Littlefair 1988, Lighting Research and Technology 20(4), 177.
pub const TABLE: [(f64, [f64; 4]); 6] = [
    (5.0, [12.0, 11.6, 8.8, 10.0]),
    (10.0, [13.3, 12.8, 10.1, 11.6]),
    (20.0, [14.0, 13.6, 11.0, 12.9]),
    (30.0, [14.3, 13.8, 11.5, 13.7]),
    (45.0, [14.3, 13.9, 12.0, 14.3]),
    (60.0, [14.2, 13.8, 12.3, 14.7]),
];

/// The exposure value of an upright subject under a clear sky.
///
/// Interpolates [`TABLE`] linearly in true altitude; above 60° the last row holds. Below 5° the light on level ground
/// ([`sky::clear`]) sets the level, and what the facing adds or takes shrinks to nothing at the horizon (own choice). A
/// subject against the light and one in the shade both show their own shadow.
pub fn clear(altitude: Angle, facing: Facing) -> ExposureValue {
    let h = altitude.degrees();
    let column = match facing {
        Facing::Front => 0,
        Facing::Side => 1,
        Facing::Back | Facing::Shade => 2,
    };
    let of = |row: &[f64; 4]| row.get(column).copied().unwrap_or(f64::NAN);
    if let Some((lowest, row)) = TABLE.first()
        && h < *lowest
    {
        let level = ev::from_lux(sky::clear(altitude), Receptor::Hemispherical);
        let ground = row.last().copied().unwrap_or(f64::NAN);
        // At 5° the polynomial lies 0.4 above the table; this removes the step.
        let lowest_level = ev::from_lux(sky::clear(Angle::from_degrees(*lowest)), Receptor::Hemispherical);
        let step = ground - lowest_level.value();
        let share = (h / lowest).max(0.0);
        return level + Stops::new(share * (of(row) - ground + step));
    }
    let between = TABLE.windows(2).find_map(|pair| match pair {
        [(h0, low), (h1, high)] if h <= *h1 => Some(of(low) + (h - h0) / (h1 - h0) * (of(high) - of(low))),
        _ => None,
    });
    let highest = TABLE.last().map_or(f64::NAN, |(_, row)| of(row));
    ExposureValue::new(between.unwrap_or(highest))
}

/// How far the clear-sky value may be off, in stops either way: a third from 7.5° up, half from 5°, one and a half below.
///
/// Source: own comparison of clear-sky models at turbidities 2 to 5.
pub fn uncertainty(altitude: Angle) -> Stops {
    let h = altitude.degrees();
    Stops::new(if h >= 7.5 {
        1.0 / 3.0
    } else if h >= 5.0 {
        0.5
    } else {
        1.5
    })
}

/// The exposure value at speed 100 of an upright subject, as a range, with clouds.
///
/// Clouds take the stops of [`Sky::loss`] and blur the facing: under bright cloud and overcast the value is that of a
/// front lit subject less the clouds, whatever the facing. Each step of cloud widens the range by half a stop (common
/// practice, no source).
pub fn exposure_value(altitude: Angle, facing: Facing, sky: Sky) -> Range {
    let facing = match sky {
        Sky::Clear | Sky::Hazy => facing,
        Sky::Cloudy | Sky::Overcast => Facing::Front,
    };
    let value = (clear(altitude, facing) - sky.loss()).value();
    let clouds = if sky == Sky::Clear { 0.0 } else { 0.5 };
    Range::plus_minus(value, uncertainty(altitude).stops() + clouds)
}

/// Whether a computed value is so far from another that one of them must be wrong: over one stop.
///
/// Common practice, no source.
pub fn disagree(computed: ExposureValue, noted: ExposureValue) -> bool {
    (computed - noted).stops().abs() > 1.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_met_at_its_rows() {
        for (h, [front, side, shadow, _]) in TABLE {
            let at = |facing| clear(Angle::from_degrees(h), facing).value();
            assert!((at(Facing::Front) - front).abs() < 1e-9);
            assert!((at(Facing::Side) - side).abs() < 1e-9);
            assert!((at(Facing::Shade) - shadow).abs() < 1e-9);
        }
        assert_eq!(clear(Angle::from_degrees(80.0), Facing::Front).value(), 14.2);
    }

    #[test]
    fn nothing_jumps_below_the_table() {
        for facing in [Facing::Front, Facing::Side, Facing::Shade] {
            let just = |h| clear(Angle::from_degrees(h), facing).value();
            assert!((just(4.999) - just(5.001)).abs() < 0.01);
            assert!(just(1.0) < just(4.0));
        }
    }

    #[test]
    fn sunny_noon_is_the_sunny_rule() {
        // ANSI PH2.7-1986: a typical scene in sun has an exposure value of 15, overcast 12, open shade 12.
        let noon = Angle::from_degrees(50.0);
        assert!((clear(noon, Facing::Front).value() - 15.0).abs() < 1.0);
        assert!((clear(noon, Facing::Shade).value() - 12.0).abs() < 0.5);
        assert!((exposure_value(noon, Facing::Front, Sky::Overcast).best - 12.0).abs() < 1.0);
        assert!(disagree(ExposureValue::new(13.0), ExposureValue::new(14.1)));
    }
}
