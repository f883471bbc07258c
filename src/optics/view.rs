//! What a camera sees: angles of view and the circle of light on flat paper.

use crate::units::scalar::{Angle, Length, Stops};

/// The angle that flat paper of some width sees: `2 atan(w/2f)`; for the diagonal give the diagonal's length.
///
/// The hole stands opposite the middle. Lengths above zero. Source: plane trigonometry.
pub fn flat(width: Length, distance: Length) -> Angle {
    Angle::from_radians(2.0 * libm::atan(width / (distance * 2.0)))
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
}
