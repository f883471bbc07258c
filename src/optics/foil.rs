//! How the thickness of the plate shades oblique light.

use crate::units::scalar::{Angle, Length};

/// The thickness of the plate over the hole above which a wide camera loses its edges. Common practice, no source.
pub const THICK: f64 = 0.2;

/// The share of the hole that is open to light at an angle from the axis.
///
/// `(2/π)(acos x - x sqrt(1 - x²))` with `x = (t/d) tan θ`, and none from `x = 1` on. Assumes straight walls; hole above
/// zero, thickness of zero or more. Source: own derivation (two overlapping circles), checked by Monte Carlo.
pub fn open_fraction(hole: Length, thickness: Length, off_axis: Angle) -> f64 {
    let angle = off_axis.radians().abs();
    if angle >= std::f64::consts::FRAC_PI_2 {
        return 0.0;
    }
    let x = thickness / hole * libm::tan(angle);
    if x >= 1.0 {
        return 0.0;
    }
    std::f64::consts::FRAC_2_PI * (libm::acos(x) - x * libm::sqrt(1.0 - x * x))
}

/// The angle from which on no light gets through: `atan(d/t)`; 90° for a plate without thickness. Source: own derivation.
pub fn cut_off(hole: Length, thickness: Length) -> Angle {
    Angle::from_radians(libm::atan2(hole.millimetres(), thickness.millimetres()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thin_plate_shades_nothing() {
        let hole = Length::from_millimetres(0.3);
        assert_eq!(open_fraction(hole, Length::ZERO, Angle::from_degrees(70.0)), 1.0);
        assert_eq!(cut_off(hole, Length::ZERO).degrees(), 90.0);
    }

    #[test]
    fn beyond_the_cut_off_is_dark() {
        let (hole, plate) = (Length::from_millimetres(0.3), Length::from_millimetres(0.1));
        let edge = cut_off(hole, plate);
        assert!(open_fraction(hole, plate, edge * 0.99) > 0.0);
        assert_eq!(open_fraction(hole, plate, edge * 1.01), 0.0);
        assert_eq!(open_fraction(hole, plate, Angle::from_degrees(95.0)), 0.0);
    }
}
