//! Mixing two strengths to one between them.

/// Parts of two solutions that make a strength between theirs: `a : b = (target - b) : (a - target)`.
///
/// By volume for percent w/v, by weight for percent w/w. Nothing where the target does not lie between the two, or where
/// they are equal. Source: Pearson's square; own arithmetic, the dissolved amount is conserved.
pub fn parts(a: f64, b: f64, target: f64) -> Option<(f64, f64)> {
    let (low, high) = (a.min(b), a.max(b));
    if !(low < high && low <= target && target <= high) {
        return None;
    }
    Some(((target - b).abs(), (a - target).abs()))
}

/// The same parts with the smaller one at 1, or as they are where one is zero.
pub fn parts_to_one(a: f64, b: f64, target: f64) -> Option<(f64, f64)> {
    let (of_a, of_b) = parts(a, b, target)?;
    let smaller = of_a.min(of_b);
    if smaller == 0.0 {
        return Some((of_a, of_b));
    }
    Some((of_a / smaller, of_b / smaller))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_mixture_has_the_target_strength() {
        for (a, b, target) in [(28.0, 0.0, 1.0), (5.0, 80.0, 20.0), (10.0, 4.0, 4.0)] {
            let (pa, pb) = parts(a, b, target).unwrap();
            assert!(((pa * a + pb * b) / (pa + pb) - target).abs() < 1e-12);
        }
        assert_eq!(parts_to_one(28.0, 0.0, 1.0), Some((1.0, 27.0)));
        assert_eq!(parts(5.0, 10.0, 11.0), None);
        assert_eq!(parts(5.0, 5.0, 5.0), None);
    }
}
