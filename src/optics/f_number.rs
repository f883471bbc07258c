//! The f-number of a pinhole, and the distance that counts for it on each way paper can lie.

use crate::units::Range;
use crate::units::scalar::{FNumber, Length, Stops, Time};

/// How the paper lies behind the hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Plane {
    /// Flat and square to the axis.
    Flat {
        /// From the hole to the paper on its axis.
        distance: Length,
    },
    /// On the inside wall of a round tin, opposite a hole in the wall.
    Wall {
        /// Inner radius of the tin.
        radius: Length,
    },
    /// On a half cylinder with the hole on its axis.
    Axis {
        /// Radius of the half cylinder.
        radius: Length,
    },
    /// Round the wall of a tin, with the hole in the middle of its lid.
    Lid {
        /// Inner radius of the tin.
        radius: Length,
        /// Inner height of the tin, from the lid to the lower edge of the paper.
        height: Length,
    },
}

impl Plane {
    /// The distance that gives the exposure and the best pinhole.
    ///
    /// Flat: the distance. Wall: `2R`. Axis: `R`. Lid: the effective focal length of the brightest line,
    /// `(R² + z²)/sqrt(zR)` at `z = R/√3` (1.755 R), or at the paper's lower edge where the tin is lower than that.
    ///
    /// Assumes a thin plate and a uniform scene; radii and distances above zero. Source: own derivation from the
    /// inverse square law and the projected areas of hole and paper.
    pub fn effective_distance(self) -> Length {
        match self {
            Self::Flat { distance } => distance,
            Self::Wall { radius } => radius * 2.0,
            Self::Axis { radius } => radius,
            Self::Lid { radius, height } => {
                let depth = height.min(brightest_depth(radius));
                lid_focal_length(radius, depth)
            }
        }
    }
}

/// How far below the lid the paper round the wall is brightest: `R/√3`, 60° off the axis.
///
/// Assumes a uniform scene and a thin plate. Source: own derivation, the maximum of `zR/(R² + z²)²`.
pub fn brightest_depth(radius: Length) -> Length {
    radius / libm::sqrt(3.0)
}

/// The focal length that gives the exposure of paper round the wall of a tin with a hole in its lid.
///
/// `(R² + z²)/sqrt(zR)` for the depth `z` below the lid; unbounded at the lid itself. Source: own derivation.
pub fn lid_focal_length(radius: Length, depth: Length) -> Length {
    let (r, z) = (radius.millimetres(), depth.millimetres());
    Length::from_millimetres((r * r + z * z) / libm::sqrt(z * r))
}

/// The f-number: `N = f/d`, on the axis, for a distant subject.
///
/// A close subject needs no bellows factor, for `f` is the real distance from the hole to the paper. Lengths above
/// zero; a hole of zero gives infinity. Source: the definition of the f-number.
pub fn f_number(distance: Length, hole: Length) -> FNumber {
    FNumber::new(distance / hole)
}

/// [`f_number`] over ranges of millimetres; nothing where the hole may be zero.
pub fn f_number_range(distance: Range, hole: Range) -> Option<Range> {
    distance.checked_div(hole)
}

/// The hole that gives an f-number at a distance: `d = f/N`. Source: the definition of the f-number.
pub fn hole_for(distance: Length, n: FNumber) -> Length {
    distance / n.number()
}

/// The stops from one f-number to another, positive where the second needs more light: `2 log2(N/N0)`.
///
/// f-numbers above zero. Source: own arithmetic from the definition of the f-number.
pub fn stops_between(from: FNumber, to: FNumber) -> Stops {
    Stops::new(2.0 * libm::log2(to.number() / from.number()))
}

/// The time at another f-number, before reciprocity: `t = t0 (N/N0)²`.
///
/// f-numbers above zero. Source: own arithmetic from the definition of the f-number.
pub fn time_at(time: Time, from: FNumber, to: FNumber) -> Time {
    let ratio = to.number() / from.number();
    time * (ratio * ratio)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_plane_has_its_distance() {
        let mm = Length::from_millimetres;
        assert_eq!(Plane::Wall { radius: mm(40.0) }.effective_distance(), mm(80.0));
        assert_eq!(Plane::Axis { radius: mm(50.0) }.effective_distance(), mm(50.0));
        let lid = |height| {
            Plane::Lid {
                radius: mm(50.0),
                height: mm(height),
            }
            .effective_distance()
            .millimetres()
        };
        assert!((lid(120.0) - 1.754_765 * 50.0).abs() < 1e-3);
        assert!(lid(10.0) > lid(120.0));
    }

    #[test]
    fn doubling_the_f_number_takes_two_stops() {
        let (a, b) = (FNumber::new(128.0), FNumber::new(256.0));
        assert_eq!(stops_between(a, b), Stops::new(2.0));
        assert_eq!(time_at(Time::from_seconds(3.0), a, b), Time::from_seconds(12.0));
        assert_eq!(
            f_number_range(Range::exact(100.0), Range::between(0.0, 1.0)),
            None
        );
    }
}
