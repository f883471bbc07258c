//! A weight in the spoons at hand, with the grams that they really hold.

use crate::units::Range;

/// More spoons than this are miscounted: the scale is quicker. Common practice, no source.
pub const MOST: f64 = 30.0;

/// So many of each spoon.
#[derive(Debug, Clone, PartialEq)]
pub struct Spoonfuls {
    /// How many of which spoon, largest first; the spoon in millilitres.
    pub spoons: Vec<(u32, f64)>,
    /// What they hold together, ml.
    pub millilitres: f64,
    /// What they weigh, g, as loosely as the powder lies.
    pub grams: Range,
}

/// The level spoons that come nearest to a weight: as many of the largest as go in, then of the next.
///
/// `per_millilitre` is the bulk density in g/ml, `owned` the spoons in ml. Nothing without a spoon, where the smallest
/// holds more than twice the weight, and where it would take over thirty. Source: own arithmetic.
pub fn nearest(grams: f64, per_millilitre: Range, owned: &[f64]) -> Option<Spoonfuls> {
    let mut owned: Vec<f64> = owned.iter().copied().filter(|spoon| *spoon > 0.0).collect();
    owned.sort_by(|a, b| b.total_cmp(a));
    owned.dedup();
    let smallest = *owned.last()?;
    if per_millilitre.low <= 0.0 || !grams.is_finite() {
        return None;
    }
    let mut left = grams / per_millilitre.best;
    let mut spoons = Vec::new();
    for spoon in owned {
        let count = ((left + smallest / 2.0 + 1e-9) / spoon).floor();
        if count >= 1.0 {
            left -= count * spoon;
            spoons.push((count.min(f64::from(u32::MAX)) as u32, spoon));
        }
    }
    let count: f64 = spoons.iter().map(|(count, _)| f64::from(*count)).sum();
    if !(1.0..=MOST).contains(&count) {
        return None;
    }
    let millilitres: f64 = spoons
        .iter()
        .map(|(count, spoon)| f64::from(*count) * spoon)
        .sum();
    Some(Spoonfuls {
        spoons,
        millilitres,
        grams: per_millilitre.scale(millilitres),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_spoon_goes_first() {
        // 26 g at 1.0 g/ml, worked by hand: 15 + 5 + 5 are 25 ml, and the 1 ml left is less than half of the 2.5.
        let found = nearest(26.0, Range::between(0.9, 1.1), &[5.0, 15.0, 2.5]).expect("spoons");
        assert_eq!(found.spoons, [(1, 15.0), (2, 5.0)]);
        assert_eq!(found.grams.low, 22.5);
    }

    #[test]
    fn spoons_are_for_small_amounts() {
        assert_eq!(nearest(900.0, Range::exact(1.0), &[5.0]), None);
        assert_eq!(nearest(0.5, Range::exact(1.0), &[5.0]), None);
        assert_eq!(nearest(5.0, Range::exact(1.0), &[]), None);
        assert_eq!(nearest(5.0, Range::exact(0.0), &[5.0]), None);
    }
}
