//! Measuring a hole: from a scan or by projection.

use crate::units::scalar::{Area, Length};

/// Below this resolution one pixel at the edge is a fifth of a stop or more for a 0.3 mm hole. Common practice, no source.
pub const FINE_ENOUGH: f64 = 3200.0;

/// The diameter of the disc that has the area of a hole in a scan: `2 sqrt(A/π) · 25.4 mm/dpi`.
///
/// `pixels` is the hole's area in pixels, counted from half way between the levels of hole and metal. Resolution above
/// zero. Source: the area of a circle.
pub fn from_scan(pixels: f64, dots_per_inch: f64) -> Length {
    Length::from_inches(2.0 * libm::sqrt(pixels / std::f64::consts::PI) / dots_per_inch)
}

/// The diameter by projection: the hole's image over the magnification, which a projected ruler tells.
///
/// `d = projected hole · true ruler/projected ruler`; lengths above zero. Source: similar triangles.
pub fn from_projection(hole_image: Length, ruler_image: Length, ruler: Length) -> Length {
    hole_image * (ruler / ruler_image)
}

/// How round a hole is: `4πA/P²`, 1 for a circle. Source: the isoperimetric quotient.
pub fn roundness(area: Area, perimeter: Length) -> f64 {
    let p = perimeter.millimetres();
    4.0 * std::f64::consts::PI * area.square_millimetres() / (p * p)
}

/// How far off a diameter is when the edge is off by one pixel on both sides: `2 · 25.4 mm/dpi`. Source: own arithmetic.
pub fn one_pixel(dots_per_inch: f64) -> Length {
    Length::from_inches(2.0 / dots_per_inch)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_round_hole_is_round() {
        let r = 0.15;
        let area = Area::from_square_millimetres(std::f64::consts::PI * r * r);
        let perimeter = Length::from_millimetres(2.0 * std::f64::consts::PI * r);
        assert!((roundness(area, perimeter) - 1.0).abs() < 1e-12);
        assert!((one_pixel(2400.0).millimetres() - 0.021).abs() < 0.001);
    }
}
