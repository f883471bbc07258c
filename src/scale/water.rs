//! Where the water of a bath comes from and goes to: the crystals bring some, the plant keeps some back.

use crate::pantry::Formula;
use crate::units::Range;

/// Water that a gram of dried leaf keeps back when it is strained, ml. From memory, unverified.
pub const DRIED_KEEPS: Range = Range {
    low: 2.0,
    best: 3.0,
    high: 4.0,
};

/// Water that a gram of fresh leaf keeps back beyond its own, ml. From memory, unverified.
pub const FRESH_KEEPS: Range = Range {
    low: 0.2,
    best: 0.5,
    high: 0.8,
};

/// The water of crystallisation in some grams of a substance, g, which are as many millilitres near enough.
///
/// From the molar masses with and without it: see [`Formula::molar_mass`].
pub fn of_crystals(grams: Range, formula: &Formula) -> Range {
    grams.scale(formula.water_share())
}

/// What has to be filled up at the end, ml: the finished volume less everything that is in by then.
///
/// The room that dissolved salts take is left out: it makes the top-up smaller, by some millilitres to the litre. Below
/// zero where the parts come to more than the finished volume. Source: own arithmetic, volumes are taken to add.
pub fn top_up(finished: Range, put_in: Range, kept_back: Range) -> Range {
    finished - (put_in - kept_back)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn crystals_are_mostly_water() {
        let formula = |text| Formula::parse(text).expect("a formula");
        // 135 g of decahydrate bring 85 g of water, from the molar masses 105.988 and 286.141 g/mol.
        let water = of_crystals(Range::exact(135.0), &formula("Na2CO3·10H2O")).best;
        assert!(
            (water - 135.0 * (1.0 - 105.988 / 286.141)).abs() < 0.01,
            "{water}"
        );
        assert_eq!(of_crystals(Range::exact(50.0), &formula("Na2CO3")).best, 0.0);
    }

    #[test]
    fn what_the_leaves_keep_is_filled_up() {
        let up = top_up(
            Range::exact(1000.0),
            Range::exact(850.0),
            Range::new(80.0, 120.0, 160.0),
        );
        assert_eq!((up.low, up.best, up.high), (230.0, 270.0, 310.0));
    }
}
