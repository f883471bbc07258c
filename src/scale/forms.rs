//! What a weight of one form of a material is in another form: the dry powder against the crystals with their water.

use crate::pantry::Formula;
use crate::units::Range;

/// Grams of `shelf` that hold as much of the substance as `grams` of `written` do: the ratio of their molar masses, each
/// for as much of what is left without its water.
///
/// Nothing where the two are not the same substance, such as a carbonate and a hydrogen carbonate. Molar masses are those
/// of [`Formula::molar_mass`], from the standard atomic weights (Prohaska et al. 2022).
pub fn same_substance(grams: Range, written: &Formula, shelf: &Formula) -> Option<Range> {
    (written.anhydrous() == shelf.anhydrous()).then(|| grams.scale(shelf.molar_mass() / written.molar_mass()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn formula(text: &str) -> Formula {
        Formula::parse(text).expect("a formula")
    }

    fn grams(grams: f64, written: &str, shelf: &str) -> Option<f64> {
        same_substance(Range::exact(grams), &formula(written), &formula(shelf)).map(|range| range.best)
    }

    #[test]
    fn crystals_weigh_more_than_powder() {
        // Molar masses of the Python package chemicals 1.5.2: 50 g are 135.0 ± 0.2 g.
        let crystals = grams(50.0, "Na2CO3", "Na2CO3·10H2O").expect("one substance");
        assert!((crystals - 135.0).abs() < 0.2, "{crystals}");
        let powder = grams(crystals, "Na2CO3·10H2O", "Na2CO3").expect("one substance");
        assert!((powder - 50.0).abs() < 1e-9, "{powder}");
    }

    #[test]
    fn hypo_powder_does_the_work_of_more_crystals() {
        // 158.108 and 248.184 g/mol, from the standard atomic weights.
        let powder = grams(200.0, "Na2S2O3·5H2O", "Na2S2O3").expect("one substance");
        assert!((powder - 200.0 * 158.108 / 248.184).abs() < 0.05, "{powder}");
    }

    #[test]
    fn another_substance_is_no_form() {
        assert_eq!(grams(50.0, "Na2CO3", "NaHCO3"), None);
    }
}
