//! The best hole for a distance, and how sharp a hole can be.

use crate::units::scalar::Length;

/// The wavelength that the best hole for paper is computed for: blue-green, 460 nm. Common practice, no source.
pub const PAPER_WAVELENGTH: Length = Length::from_nanometres(460.0);

/// How many pixels a scan needs for each finest period of the picture. Common practice, no source.
pub const PIXELS_PER_PERIOD: f64 = 6.0;

/// Below this constant the hole is too small for its distance, and above [`LARGEST_CONSTANT`] too large, to be best
/// by any criterion. Source: own computation, see [`MODULATION`].
pub const SMALLEST_CONSTANT: f64 = 1.2;

/// See [`SMALLEST_CONSTANT`].
pub const LARGEST_CONSTANT: f64 = 2.2;

/// What the best hole is best for.
///
/// There is no single optimum: between 1.4 and 2.0 the contrast of middling detail varies by 17 % and the exposure
/// twofold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Criterion {
    /// Sharpest image of a point, a quarter wave: `c² = 2`. Source: Mielenz 1999, On the diffraction limit for lensless
    /// imaging, J. Res. NIST 104(5), 479.
    Petzval,
    /// The Airy disc is as wide as the hole: `c² = 2.44`. Source: the Fraunhofer diffraction of a circular hole.
    #[default]
    Airy,
    /// Two points can just be told apart, half a wave: `c² = 3.6`. Source: Mielenz 1999, which gives Rayleigh's result of
    /// 1891.
    Rayleigh,
    /// One Fresnel zone, the brightest axis: `c² = 4`. Source: Young 1971, Pinhole optics, Applied Optics 10, 2763
    /// (title from memory, unverified).
    Zone,
}

impl Criterion {
    /// Every word, in the order above.
    pub const WORDS: &'static [&'static str] = &[
        Self::Petzval.word(),
        Self::Airy.word(),
        Self::Rayleigh.word(),
        Self::Zone.word(),
    ];

    /// All criteria, smallest hole first.
    pub const ALL: [Self; 4] = [Self::Petzval, Self::Airy, Self::Rayleigh, Self::Zone];

    /// The word that a notebook uses.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Petzval => "petzval",
            Self::Airy => "airy",
            Self::Rayleigh => "rayleigh",
            Self::Zone => "zone",
        }
    }

    /// The criterion of a word; `fresnel` is another word for `zone`.
    pub fn from_word(word: &str) -> Option<Self> {
        if word == "fresnel" {
            return Some(Self::Zone);
        }
        Self::ALL.into_iter().find(|criterion| criterion.word() == word)
    }

    /// The square of the constant `c` in `d = c sqrt(λf)`.
    pub const fn constant_squared(self) -> f64 {
        match self {
            Self::Petzval => 2.0,
            Self::Airy => 2.44,
            Self::Rayleigh => 3.6,
            Self::Zone => 4.0,
        }
    }

    /// The constant `c` in `d = c sqrt(λf)`.
    pub fn constant(self) -> f64 {
        libm::sqrt(self.constant_squared())
    }
}

/// The best hole: `d = c sqrt(λf)`.
///
/// Assumes a distant subject and a thin plate; lengths above zero. Sources: see [`Criterion`].
pub fn best_hole(criterion: Criterion, distance: Length, wavelength: Length) -> Length {
    Length::from_millimetres(
        criterion.constant() * libm::sqrt(wavelength.millimetres() * distance.millimetres()),
    )
}

/// The constant of a hole that exists: `c = d/sqrt(λf)`. Lengths above zero. Source: own arithmetic.
pub fn constant_of(hole: Length, distance: Length, wavelength: Length) -> f64 {
    hole.millimetres() / libm::sqrt(wavelength.millimetres() * distance.millimetres())
}

/// The configuration parameter over π: `u/π = c²/2`, for a plane wave.
///
/// Source: `u` of Lommel as used by Mielenz 1999, J. Res. NIST 104(5), 479; the relation is an own derivation.
pub fn configuration_over_pi(constant: f64) -> f64 {
    constant * constant / 2.0
}

/// The blur of a point by the hole's size alone: `b = d (1 + f/Z)`.
///
/// Lengths above zero. Source: own derivation by similar triangles.
pub fn geometric_blur(hole: Length, distance: Length, subject: Length) -> Length {
    hole * (1.0 + magnification(distance, subject))
}

/// The size of the image over the size of the subject: `f/Z`. Source: own derivation by similar triangles.
pub fn magnification(distance: Length, subject: Length) -> f64 {
    distance / subject
}

/// The radius of the Airy disc: `1.22 λf/d`, in the far field.
///
/// Lengths above zero; at the best hole neither this nor the geometric blur holds alone. Source: the Fraunhofer
/// diffraction of a circular hole.
pub fn airy_radius(hole: Length, distance: Length, wavelength: Length) -> Length {
    distance * (1.22 * (wavelength / hole))
}

/// How fine the detail is that a hole still draws, by its constant `c`.
///
/// Each row: `c`, then the frequencies at which contrast has fallen to 50, 20 and 10 %, in units of `1/sqrt(λf)`.
/// Source: own computation of the Fresnel integral of a circular hole in a plane wave.
pub const MODULATION: [(f64, [f64; 3]); 7] = [
    (1.20, [0.415, 0.791, 0.956]),
    (1.414, [0.426, 0.882, 1.113]),
    (1.562, [0.416, 0.895, 1.210]),
    (1.80, [0.384, 0.772, 1.294]),
    (1.897, [0.369, 0.704, 1.164]),
    (2.00, [0.353, 0.642, 0.898]),
    (2.20, [0.324, 0.551, 0.692]),
];

/// The frequencies of [`MODULATION`] at a constant, interpolated; nothing outside 1.2 to 2.2.
pub fn modulation(constant: f64) -> Option<[f64; 3]> {
    MODULATION.windows(2).find_map(|pair| match pair {
        [(c0, low), (c1, high)] if *c0 <= constant && constant <= *c1 => {
            let share = (constant - c0) / (c1 - c0);
            let [low50, low20, low10] = low;
            let [high50, high20, high10] = high;
            let between = |a: f64, b: f64| a + share * (b - a);
            Some([
                between(*low50, *high50),
                between(*low20, *high20),
                between(*low10, *high10),
            ])
        }
        _ => None,
    })
}

/// The finest period that still has a fifth of its contrast: `sqrt(λf)/m20(c)`.
///
/// Nothing where the hole's constant is outside 1.2 to 2.2. Source: see [`MODULATION`].
pub fn finest_period(hole: Length, distance: Length, wavelength: Length) -> Option<Length> {
    let [_, m20, _] = modulation(constant_of(hole, distance, wavelength))?;
    let unit = libm::sqrt(wavelength.millimetres() * distance.millimetres());
    Some(Length::from_millimetres(unit / m20))
}

/// How many pixels of a scan cover a period. Source: own arithmetic.
pub fn pixels_per_period(period: Length, dots_per_inch: f64) -> f64 {
    period.inches() * dots_per_inch
}

/// The finest scan in dots per inch that is worth while: [`PIXELS_PER_PERIOD`] for the finest period.
pub fn finest_scan(period: Length) -> f64 {
    PIXELS_PER_PERIOD / period.inches()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_constant_of_the_best_hole_is_its_criterion() {
        let (f, wave) = (Length::from_millimetres(80.0), PAPER_WAVELENGTH);
        for criterion in Criterion::ALL {
            let hole = best_hole(criterion, f, wave);
            assert!((constant_of(hole, f, wave) - criterion.constant()).abs() < 1e-12);
            assert_eq!(Criterion::from_word(criterion.word()), Some(criterion));
        }
        assert_eq!(Criterion::from_word("fresnel"), Some(Criterion::Zone));
    }

    #[test]
    fn paper_is_scanned_at_about_a_thousand_dots() {
        let f = Length::from_millimetres(100.0);
        let hole = best_hole(Criterion::Airy, f, PAPER_WAVELENGTH);
        let period = finest_period(hole, f, PAPER_WAVELENGTH).unwrap();
        assert!((period.millimetres() - 0.24).abs() < 0.005);
        assert!((pixels_per_period(period, 600.0) - 5.7).abs() < 0.1);
        assert!((600.0..1200.0).contains(&finest_scan(period)));
        assert_eq!(finest_period(hole * 2.0, f, PAPER_WAVELENGTH), None);
    }

    #[test]
    fn interpolation_meets_the_rows() {
        for (c, row) in MODULATION {
            assert_eq!(modulation(c), Some(row));
        }
    }
}
