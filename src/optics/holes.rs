//! Several holes, and paper that goes far round a tin.

use crate::units::scalar::{Angle, Length, Time};

/// How far apart on flat paper the images of two holes lie: `a (1 + f/Z)`.
///
/// Lengths above zero. Source: own derivation by similar triangles.
pub fn image_shift(separation: Length, distance: Length, subject: Length) -> Length {
    separation * (1.0 + distance / subject)
}

/// How far apart on the wall of a tin the images of a distant subject lie, for two holes some arc apart in the wall.
///
/// The same arc, the other way round: both ends of a chord of fixed direction turn by the same angle. Source: own
/// derivation from the inscribed angle theorem.
pub fn image_shift_on_wall(arc: Length) -> Length {
    -arc
}

/// The time where the images of `holes` holes lie over each other: `t/n`; none counts as one hole.
///
/// Exposures add. Reciprocity is applied after. Source: own arithmetic.
pub fn shared_time(time: Time, holes: u32) -> Time {
    time / f64::from(holes.max(1))
}

/// How far paper goes round the wall of a tin with a hole in the wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wrap {
    /// Up to half of the wall: every ray lies within 45° of the axis.
    Within,
    /// Over half: the edges are stretched and shaded by the plate.
    Far,
    /// Over two thirds: rays over 60° off the axis.
    TooFar,
    /// The paper covers the hole.
    CoversHole,
}

/// The gap that paper must leave for the hole. Common practice, no source.
pub const GAP: Length = Length::from_millimetres(20.0);

/// How far paper goes round, and the angle of the wall that it covers: `w/R`.
///
/// Limits at 180° and 240° of wall. Radius above zero. Source: the inscribed angle theorem; the limits are common
/// practice.
pub fn wrap(width: Length, radius: Length) -> (Wrap, Angle) {
    let angle = Angle::from_radians(width / radius);
    let circumference = radius * std::f64::consts::TAU;
    let wrap = if width >= circumference - GAP {
        Wrap::CoversHole
    } else if angle.degrees() > 240.0 {
        Wrap::TooFar
    } else if angle.degrees() > 180.0 {
        Wrap::Far
    } else {
        Wrap::Within
    };
    (wrap, angle)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paper_may_go_half_way_round() {
        let mm = Length::from_millimetres;
        assert_eq!(wrap(mm(125.0), mm(50.0)).0, Wrap::Within);
        assert_eq!(wrap(mm(180.0), mm(50.0)).0, Wrap::Far);
        assert_eq!(wrap(mm(220.0), mm(50.0)).0, Wrap::TooFar);
        assert_eq!(wrap(mm(300.0), mm(50.0)).0, Wrap::CoversHole);
    }

    #[test]
    fn two_holes_halve_the_time() {
        assert_eq!(shared_time(Time::from_seconds(60.0), 2).seconds(), 30.0);
        assert_eq!(shared_time(Time::from_seconds(60.0), 0).seconds(), 60.0);
        let shift = image_shift(
            Length::from_millimetres(10.0),
            Length::from_millimetres(100.0),
            Length::from_metres(1.0),
        );
        assert_eq!(shift.millimetres(), 11.0);
    }
}
