//! How the light falls off towards the edges, on flat and on curved paper.
//!
//! All formulas assume a thin plate and a uniform scene; multiply with [`super::foil::open_fraction`]
//! for a thick one.

use crate::units::scalar::{Angle, Length, Stops};

use super::f_number::{Plane, brightest_depth, lid_focal_length};
use super::foil;

/// The share of the axis' light that flat paper gets off the axis: `cos⁴ θ`.
///
/// Source: own derivation from the inverse square law and the two projected areas (the cosine-fourth law).
pub fn flat(off_axis: Angle) -> f64 {
    let cos = libm::cos(off_axis.radians());
    cos * cos * cos * cos
}

/// A share of light as stops lost; infinite for no light. Source: own arithmetic.
pub fn loss(share: f64) -> Stops {
    Stops::new(-libm::log2(share))
}

/// Where a ray meets curved paper, and how bright it is there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// The ray's azimuth from the axis.
    pub azimuth: Angle,
    /// The ray's elevation above the plane through the hole.
    pub elevation: Angle,
    /// The ray's way from the hole to the paper.
    pub slant: Length,
    /// The share of the light on the axis.
    pub share: f64,
}

/// Paper on the wall of a round tin with the hole in the wall: `E/E0 = cos⁴ ψ`, whatever the azimuth.
///
/// `arc` is measured along the paper from the axis, `height` above the hole; `θ = s/(2R)`,
/// `tan ψ = y/(2R cos θ)`, slant `2R cos θ/cos ψ`. Valid for `|arc| < πR`. Source: own derivation, checked against
/// vector geometry.
pub fn wall(radius: Length, arc: Length, height: Length) -> Spot {
    let azimuth = arc / (radius * 2.0);
    let across = radius * (2.0 * libm::cos(azimuth));
    let elevation = libm::atan2(height.millimetres(), across.millimetres());
    let cos = libm::cos(elevation);
    Spot {
        azimuth: Angle::from_radians(azimuth),
        elevation: Angle::from_radians(elevation),
        slant: Length::from_millimetres(libm::hypot(across.millimetres(), height.millimetres())),
        share: cos * cos * cos * cos,
    }
}

/// Paper on a half cylinder with the hole on its axis: `E/E0 = cos θ cos⁴ ψ`, `tan ψ = y/R`.
///
/// Valid up to 90° of azimuth. Source: own derivation, checked against vector geometry.
pub fn axis(radius: Length, azimuth: Angle, height: Length) -> Spot {
    let elevation = libm::atan2(height.millimetres(), radius.millimetres());
    let cos = libm::cos(elevation);
    Spot {
        azimuth,
        elevation: Angle::from_radians(elevation),
        slant: Length::from_millimetres(libm::hypot(radius.millimetres(), height.millimetres())),
        share: libm::cos(azimuth.radians()).max(0.0) * cos * cos * cos * cos,
    }
}

/// A line round the wall of a tin with the hole in its lid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LidLine {
    /// The rays' angle from the tin's axis.
    pub off_axis: Angle,
    /// The share of the brightest line's light.
    pub share: f64,
    /// The focal length that gives the exposure on this line.
    pub focal_length: Length,
}

/// Paper round the wall of a tin with the hole in its lid, some depth below it: `E ~ zR/(R² + z²)²`.
///
/// Depth above zero. Source: own derivation, checked against vector geometry.
pub fn lid(radius: Length, depth: Length) -> LidLine {
    let light = |z: Length| {
        let (r, z) = (radius.millimetres(), z.millimetres());
        let square = r * r + z * z;
        z * r / (square * square)
    };
    LidLine {
        off_axis: Angle::from_radians(libm::atan2(radius.millimetres(), depth.millimetres())),
        share: light(depth) / light(brightest_depth(radius)),
        focal_length: lid_focal_length(radius, depth),
    }
}

/// A sheet in a camera.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sheet {
    /// How the paper lies.
    pub plane: Plane,
    /// Along the paper, horizontally.
    pub width: Length,
    /// Up the paper.
    pub height: Length,
    /// How far the hole stands above the paper's middle; of no account for a hole in the lid.
    pub offset: Length,
    /// The hole and the thickness of its plate, where known.
    pub foil: Option<(Length, Length)>,
}

impl Sheet {
    /// The share of the light at a place of the sheet, of the axis' light (lid: of the brightest line's).
    ///
    /// `x` along the paper and `y` up it, from its middle. Paper in a tin with the hole in the lid stands on the tin's
    /// bottom. Sources: the functions of this file.
    pub fn share_at(&self, x: Length, y: Length) -> f64 {
        let up = y - self.offset;
        let (share, off_axis) = match self.plane {
            Plane::Flat { distance } => {
                let across = libm::hypot(x.millimetres(), up.millimetres());
                let angle = Angle::from_radians(libm::atan2(across, distance.millimetres()));
                (flat(angle), angle)
            }
            Plane::Wall { radius } => {
                let spot = wall(radius, x, up);
                (spot.share, off_axis(spot))
            }
            Plane::Axis { radius } => {
                let spot = axis(radius, Angle::from_radians(x / radius), up);
                (spot.share, off_axis(spot))
            }
            Plane::Lid { radius, height } => {
                let depth = height - self.height / 2.0 - y;
                if depth <= Length::ZERO {
                    return 0.0;
                }
                let line = lid(radius, depth);
                (line.share, line.off_axis)
            }
        };
        match self.foil {
            Some((hole, thickness)) => share * foil::open_fraction(hole, thickness, off_axis),
            None => share,
        }
    }

    /// The shares of light on a grid over the sheet, rows from the top, edges included.
    ///
    /// Fewer than two columns or rows count as two.
    pub fn map(&self, columns: usize, rows: usize) -> Vec<Vec<f64>> {
        let (columns, rows) = (columns.max(2), rows.max(2));
        let place =
            |length: Length, at: usize, count: usize| length * (at as f64 / (count as f64 - 1.0) - 0.5);
        (0..rows)
            .map(|row| {
                let y = -place(self.height, row, rows);
                (0..columns)
                    .map(|column| self.share_at(place(self.width, column, columns), y))
                    .collect()
            })
            .collect()
    }

    /// The stops between the brightest and the darkest place of the sheet, on a grid of 33 by 33.
    pub fn unevenness(&self) -> Stops {
        let map = self.map(33, 33);
        let all = || map.iter().flatten().copied();
        let darkest = all().fold(f64::INFINITY, f64::min);
        let brightest = all().fold(0.0, f64::max);
        loss(darkest / brightest)
    }
}

/// The angle of a ray from the axis: `cos = cos θ cos ψ`.
fn off_axis(spot: Spot) -> Angle {
    let cos = libm::cos(spot.azimuth.radians()) * libm::cos(spot.elevation.radians());
    Angle::from_radians(libm::acos(cos.clamp(-1.0, 1.0)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Length {
        Length::from_millimetres(value)
    }

    #[test]
    fn flat_paper_loses_most_in_its_corners() {
        let sheet = Sheet {
            plane: Plane::Flat { distance: mm(50.0) },
            width: mm(127.0),
            height: mm(102.0),
            offset: Length::ZERO,
            foil: None,
        };
        assert!((sheet.unevenness().stops() - 3.7384).abs() < 1e-3);
        assert_eq!(sheet.share_at(Length::ZERO, Length::ZERO), 1.0);
    }

    #[test]
    fn along_the_height_of_the_hole_a_tin_is_evenly_lit() {
        for arc in [0.0, 20.0, 60.0, 100.0] {
            assert_eq!(wall(mm(40.0), mm(arc), Length::ZERO).share, 1.0);
        }
        let sheet = |foil| Sheet {
            plane: Plane::Wall { radius: mm(40.0) },
            width: mm(120.0),
            height: mm(1e-9),
            offset: Length::ZERO,
            foil,
        };
        assert!(sheet(None).unevenness().stops() < 1e-9);
        assert!(sheet(Some((mm(0.3), mm(0.1)))).unevenness().stops() > 0.3);
    }

    #[test]
    fn the_wall_agrees_with_vector_geometry() {
        // Hole at the origin, its normal along x; the paper's normal points to the tin's axis at (R, 0).
        let r = 40.0_f64;
        for (arc, height) in [(10.0, 5.0), (50.0, 30.0), (-70.0, -12.0)] {
            let turn = arc / r;
            let place = [r + r * libm::cos(turn), r * libm::sin(turn), height];
            let normal = [-libm::cos(turn), -libm::sin(turn), 0.0];
            let dot = |a: [f64; 3], b: [f64; 3]| a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
            let way = libm::sqrt(dot(place, place));
            let at_hole = place[0] / way;
            let at_paper = -dot(place, normal) / way;
            let light = at_hole * at_paper / (way * way) * (2.0 * r) * (2.0 * r);
            let spot = wall(mm(r), mm(arc), mm(height));
            assert!((spot.share - light).abs() < 1e-12);
            assert!((spot.slant.millimetres() - way).abs() < 1e-12);
        }
    }
}
