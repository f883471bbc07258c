//! What a camera sees: angles of view and the circle of light on flat paper.

use crate::units::scalar::{Angle, Length, Stops};

/// The angle that flat paper of some width sees: `2 atan(w/2f)`; for the diagonal give the diagonal's length.
///
/// The hole stands opposite the middle. Lengths above zero. Source: plane trigonometry.
pub fn flat(width: Length, distance: Length) -> Angle {
    Angle::from_radians(2.0 * libm::atan(width / (distance * 2.0)))
}

/// The angle between two opposite corners of flat paper, with the hole some way above or below its middle.
///
/// With no offset it is [`flat`] of the diagonal. Lengths above zero, the offset any. Source: the angle of two vectors.
pub fn corner_to_corner(width: Length, height: Length, distance: Length, offset: Length) -> Angle {
    let (half_width, half_height) = (width.millimetres() / 2.0, height.millimetres() / 2.0);
    let (depth, off) = (distance.millimetres(), offset.millimetres());
    let (above, below) = (half_height + off, half_height - off);
    // The rays to the corners are (w, above, d) and (-w, -below, d).
    let dot = depth * depth - half_width * half_width - above * below;
    let cross = [
        depth * (above + below),
        depth * 2.0 * half_width,
        half_width * (above - below),
    ];
    let across = libm::sqrt(cross.iter().map(|part| part * part).sum());
    Angle::from_radians(libm::atan2(across, dot))
}

/// The diagonal of a sheet. Source: Pythagoras.
pub fn diagonal(width: Length, height: Length) -> Length {
    Length::from_millimetres(libm::hypot(width.millimetres(), height.millimetres()))
}

/// The azimuth that paper on the wall of a tin sees through a hole in the wall: `s/(2R)`, half the arc's angle.
///
/// Arc up to the circumference. Source: the inscribed angle theorem (Euclid, Elements III.20).
pub fn wall(arc: Length, radius: Length) -> Angle {
    Angle::from_radians(arc / (radius * 2.0))
}

/// The azimuth that paper on a half cylinder sees through a hole on its axis: `s/R`. Source: the definition of arc.
pub fn axis(arc: Length, radius: Length) -> Angle {
    Angle::from_radians(arc / radius)
}

/// How far off the axis flat paper has lost some stops: `cos θ = 2^(-L/4)`.
///
/// Loss of zero stops or more. Source: own derivation from the fourth-power law, see
/// [`falloff::flat`](super::falloff::flat).
pub fn half_angle_for_loss(loss: Stops) -> Angle {
    Angle::from_radians(libm::acos(libm::exp2(-loss.stops() / 4.0)))
}

/// The circle on flat paper at whose edge some stops are lost: `2f tan θ`. Source: own derivation.
pub fn circle_for_loss(distance: Length, loss: Stops) -> Length {
    distance * (2.0 * libm::tan(half_angle_for_loss(loss).radians()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_circle_of_two_stops_is_twice_the_distance() {
        let f = Length::from_millimetres(60.0);
        let circle = circle_for_loss(f, Stops::new(2.0));
        assert!((circle / f - 2.0).abs() < 1e-12);
        assert!((flat(circle, f).degrees() - 90.0).abs() < 1e-9);
    }

    #[test]
    fn the_wall_sees_half_of_what_the_axis_sees() {
        let mm = Length::from_millimetres;
        let half = wall(mm(125.0), mm(50.0)).degrees();
        assert!((half - 71.6).abs() < 0.05);
        assert!((axis(mm(125.0), mm(50.0)).degrees() - 2.0 * half).abs() < 1e-9);
    }
    // 100×125 mm at 60 mm: 2 atan(80.04/60) = 106.29°; with the hole 15 mm off the law of cosines on the two rays gives
    // 104.78°.
    #[test]
    fn a_hole_off_the_middle_sees_less_from_corner_to_corner() {
        let mm = Length::from_millimetres;
        let at = |offset| corner_to_corner(mm(125.0), mm(100.0), mm(60.0), mm(offset)).degrees();
        let whole = flat(diagonal(mm(125.0), mm(100.0)), mm(60.0)).degrees();
        assert!((at(0.0) - whole).abs() < 1e-9);
        assert!((at(15.0) - at(-15.0)).abs() < 1e-9);
        let ray = |x: f64, y: f64| libm::sqrt(x * x + y * y + 3600.0);
        let (a, b, c) = (ray(62.5, 65.0), ray(62.5, 35.0), libm::hypot(125.0, 100.0));
        let law = libm::acos((a * a + b * b - c * c) / (2.0 * a * b)).to_degrees();
        assert!((at(15.0) - law).abs() < 1e-9);
        assert!((law - 104.8).abs() < 0.05);
    }
}
