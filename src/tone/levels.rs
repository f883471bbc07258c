//! Setting black and white after the picture was turned into light.

/// The shares of the picture's values that become black and white: 0.5 % at either end. Common practice, no source.
pub const CLIPPED: f64 = 0.005;

/// The values below which some shares of all values lie, by the nearest rank; nothing without values or where one is not finite.
///
/// Give the values of the picture area only, in linear light: the rebate would set black. Source: the nearest-rank definition
/// of a percentile.
pub fn ends(values: &[f64], clipped: f64) -> Option<(f64, f64)> {
    let mut sorted = values.to_vec();
    if sorted.is_empty() || sorted.iter().any(|value| !value.is_finite()) {
        return None;
    }
    sorted.sort_by(f64::total_cmp);
    let last = sorted.len() - 1;
    let at = |share: f64| {
        let rank = (share.clamp(0.0, 1.0) * last as f64).round() as usize;
        sorted.get(rank.min(last)).copied()
    };
    Some((at(clipped)?, at(1.0 - clipped)?))
}

/// A value stretched so that `black` becomes 0 and `white` 1, clipped to both; as it is where the two are the same.
///
/// Linear light. Source: own arithmetic.
pub fn stretched(value: f64, (black, white): (f64, f64)) -> f64 {
    if white <= black {
        return value.clamp(0.0, 1.0);
    }
    ((value - black) / (white - black)).clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ends_become_black_and_white() {
        let values: Vec<f64> = (0..=1000).map(|i| f64::from(i) / 2000.0 + 0.1).collect();
        let found = ends(&values, CLIPPED).unwrap();
        assert!((found.0 - 0.1025).abs() < 1e-9 && (found.1 - 0.5975).abs() < 1e-9);
        assert_eq!(stretched(found.0, found), 0.0);
        assert_eq!(stretched(found.1, found), 1.0);
        assert_eq!(stretched(0.9, found), 1.0);
        assert_eq!(stretched(0.5, (0.4, 0.4)), 0.5);
        assert_eq!(ends(&[], CLIPPED), None);
        assert_eq!(ends(&[f64::NAN], CLIPPED), None);
    }
}
