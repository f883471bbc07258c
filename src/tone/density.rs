//! Densities of a scan, and turning them over.

use super::srgb;

/// Flatbeds measure densities up to about here; flare hides more. Common practice, no source.
pub const FLATBED_LIMIT: f64 = 2.0;

/// The density above paper white: `-log10(lin/lin_white)`, both linear light.
///
/// Infinite for no light; negative for lighter than white. Source: the definition of density.
pub fn above_white(linear: f64, white: f64) -> f64 {
    -libm::log10(linear / white)
}

/// A negative's density turned over: `Dmax - D`, a reciprocal in linear light.
pub fn inverted(density: f64, darkest: f64) -> f64 {
    darkest - density
}

/// The linear light of a density, `10^-D`. Source: the definition of density.
pub fn to_linear(density: f64) -> f64 {
    libm::exp10(-density)
}

/// A positive from a negative's level by density, as an unrounded level from 0 to 255.
///
/// `white` and `black` are the levels of bare paper and of its darkest black; the result is not stretched to paper white.
/// Below the black level it stops at full light. Source: own derivation from the definition of density and IEC 61966-2-1.
pub fn invert_level(level: f64, white: f64, black: f64) -> f64 {
    let linear = srgb::level_to_linear;
    let darkest = above_white(linear(black), linear(white));
    let density = above_white(linear(level), linear(white));
    srgb::linear_to_level(to_linear(inverted(density, darkest).max(0.0)))
}

/// The plain inversion of an encoded level, `255 - v`: neither linear nor logarithmic, for comparison only.
pub fn invert_plainly(level: f64) -> f64 {
    255.0 - level
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn black_becomes_white() {
        assert!((invert_level(10.0, 245.0, 10.0) - 255.0).abs() < 1e-9);
        assert!((invert_level(0.0, 245.0, 10.0) - 255.0).abs() < 1e-9);
        assert!(invert_level(245.0, 245.0, 10.0) < 12.0);
        assert_eq!(above_white(0.5, 0.5), 0.0);
    }

    #[test]
    fn darker_negatives_give_lighter_positives() {
        let mut before = 300.0;
        for level in 1..=255 {
            let now = invert_level(f64::from(level), 250.0, 8.0);
            assert!(now <= before);
            before = now;
        }
    }
}
