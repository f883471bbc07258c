//! How much longer a larger vessel takes to cool.

use crate::units::Range;

/// Turns that suffice for any number between a millionth and a million.
pub const TURNS: u32 = 60;

/// By how much the cooling time changes with a volume that is `multiple` times as large.
///
/// Heat leaves through the surface, so Newton's rate goes as surface over volume: a vessel of the same shape takes the
/// cube root of the multiple, the same vessel filled so much fuller nearly the multiple itself. What is really used lies
/// between. Source: own derivation.
pub fn factor(multiple: f64) -> Range {
    let shape = cube_root(multiple);
    Range::new(shape.min(multiple), shape, shape.max(multiple))
}

/// The cube root of a number above zero by Newton's method, in operations that come out the same in every browser: the
/// site's script takes as many turns.
fn cube_root(value: f64) -> f64 {
    let mut root = value.max(1.0);
    for _ in 0..TURNS {
        root -= (root - value / (root * root)) / 3.0;
    }
    root
}

#[cfg(test)]
mod tests {
    use super::{cube_root, factor};

    #[test]
    fn the_cube_root_is_the_library_s() {
        for value in [1e-6, 0.02, 0.5, 1.0, 2.0, 3.7, 27.0, 1e6] {
            assert!(
                (cube_root(value) / libm::cbrt(value) - 1.0).abs() < 1e-15,
                "{value}"
            );
        }
    }

    #[test]
    fn eight_times_as_much_cools_two_to_eight_times_as_slowly() {
        let times = factor(8.0);
        assert!((times.low - 2.0).abs() < 1e-12 && (times.high - 8.0).abs() < 1e-12);
        assert_eq!(factor(1.0).width(), 0.0);
        assert!(factor(0.5).low == 0.5 && factor(0.5).high < 0.8);
    }
}
