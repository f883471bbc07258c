//! How much longer a larger vessel takes to cool.

use crate::units::Range;

/// By how much the cooling time changes with a volume that is `multiple` times as large.
///
/// Heat leaves through the surface, so Newton's rate goes as surface over volume: a vessel of the same shape takes the
/// cube root of the multiple, the same vessel filled so much fuller nearly the multiple itself. What is really used lies
/// between. Source: own derivation.
pub fn factor(multiple: f64) -> Range {
    let shape = libm::cbrt(multiple);
    Range::new(shape.min(multiple), shape, shape.max(multiple))
}

#[cfg(test)]
mod tests {
    use super::factor;

    #[test]
    fn eight_times_as_much_cools_two_to_eight_times_as_slowly() {
        let times = factor(8.0);
        assert!((times.low - 2.0).abs() < 1e-12 && (times.high - 8.0).abs() < 1e-12);
        assert_eq!(factor(1.0).width(), 0.0);
        assert!(factor(0.5).low == 0.5 && factor(0.5).high < 0.8);
    }
}
