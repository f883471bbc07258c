//! A strength written beside a name, or told of a packet: `vinegar 5 %`, `28 % w/w ammonia`, `250 g/l`.

use crate::units::{Dimension, Range};

/// In what a percentage is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PercentBasis {
    /// Grams in 100 g.
    ByMass,
    /// Grams in 100 ml.
    MassByVolume,
    /// Millilitres in 100 ml.
    ByVolume,
}

/// A strength in per cent, as written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength {
    /// The lower bound, or the value.
    pub low: f64,
    /// The upper bound, or the value.
    pub high: f64,
    /// In what it is counted, if that was written.
    pub basis: Option<PercentBasis>,
}

impl Strength {
    /// The pure substance, as a formula means it.
    pub const PURE: Self = Self {
        low: 100.0,
        high: 100.0,
        basis: Some(PercentBasis::ByMass),
    };

    /// The strength that an amount tells; none where its dimension tells none.
    pub fn of_amount(range: Range, dimension: Dimension) -> Option<Self> {
        let (range, basis) = match dimension {
            Dimension::MassConcentration => (
                range.map_monotone(|grams| grams / 10.0),
                Some(PercentBasis::MassByVolume),
            ),
            Dimension::MassFraction => (range.scale(100.0), Some(PercentBasis::ByMass)),
            Dimension::VolumeFraction => (range.scale(100.0), Some(PercentBasis::ByVolume)),
            Dimension::Share => (range.scale(100.0), None),
            _ => return None,
        };
        Some(Self {
            low: range.low,
            high: range.high,
            basis,
        })
    }

    /// The same as a part of one, in what it is counted.
    pub fn share(self) -> Range {
        Range::between(self.low / 100.0, self.high / 100.0)
    }

    /// Grams to the litre; none where it is counted otherwise than by volume of solution.
    ///
    /// A bare percentage of vinegar is grams in 100 ml on labels: FDA CPG Sec. 525.825 words it so.
    pub fn grams_per_litre(self) -> Option<Range> {
        match self.basis {
            None | Some(PercentBasis::MassByVolume) => {
                Some(Range::between(self.low * 10.0, self.high * 10.0))
            }
            Some(PercentBasis::ByMass | PercentBasis::ByVolume) => None,
        }
    }
}

/// Takes a percentage out of `name`: what is left of the name, and the percentage.
pub(super) fn split(name: &str) -> Option<(String, Strength)> {
    let percent = name.find('%')?;
    let before = name.get(..percent)?;
    let after = name.get(percent + 1..)?;
    let (left, high) = last_number(before)?;
    let (left, low) = match left.strip_suffix(is_dash) {
        Some(left) => last_number(left.trim_end())?,
        None => (left, high),
    };
    let in_reach = |value: f64| (0.0..=100.0).contains(&value);
    if !in_reach(low) || !in_reach(high) || high < low || left.ends_with(is_dash) {
        return None;
    }
    let (basis, rest) = basis(after);
    let left = format!("{left} {rest}");
    Some((left, Strength { low, high, basis }))
}

/// What stands before the number at the end of a text, and the number: the `50` of `C6H8O7 50`.
fn last_number(text: &str) -> Option<(&str, f64)> {
    let text = text.trim_end();
    let digits = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
    let (left, number) = text.split_at(text.trim_end_matches(digits).len());
    // The comma behind a name is none of its number.
    let number = number.trim_start_matches(|c: char| !c.is_ascii_digit());
    // One that stands at the sign of an element counts atoms.
    let atoms = left.ends_with(|c: char| c.is_ascii_uppercase() || c == ')');
    let number = number.replace(',', ".").parse().ok()?;
    (!atoms).then_some((left.trim_end(), number))
}

fn is_dash(c: char) -> bool {
    matches!(c, '-' | '–')
}

fn basis(after: &str) -> (Option<PercentBasis>, &str) {
    let after = after.trim_start();
    for (text, basis) in [
        ("w/w", PercentBasis::ByMass),
        ("w/v", PercentBasis::MassByVolume),
        ("v/v", PercentBasis::ByVolume),
    ] {
        if let Some(rest) = after.strip_prefix(text) {
            return (Some(basis), rest);
        }
    }
    (None, after)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_amount_is_the_strength_that_a_label_writes() {
        let litre = |amount: f64, dimension| {
            Strength::of_amount(Range::exact(amount), dimension)
                .and_then(Strength::grams_per_litre)
                .map(|range| range.best)
        };
        // FDA CPG Sec. 525.825: vinegar of 4 per cent has 4 grams of acetic acid in 100 ml.
        assert_eq!(litre(0.04, Dimension::Share), Some(40.0));
        assert_eq!(litre(40.0, Dimension::MassConcentration), Some(40.0));
        assert_eq!(litre(0.25, Dimension::MassFraction), None);
        assert_eq!(litre(1.0, Dimension::Molarity), None);
        assert_eq!(Strength::PURE.share(), Range::exact(1.0));
    }

    #[test]
    fn a_percentage_is_found_before_and_behind() {
        let check = |text: &str, name: &str, low: f64, high: f64, basis| {
            let (left, strength) = split(text).unwrap();
            assert_eq!(left.trim().trim_end_matches([',', '(', ' ']), name, "{text}");
            assert_eq!(strength, Strength { low, high, basis }, "{text}");
        };
        check("5 % vinegar", "vinegar", 5.0, 5.0, None);
        check("vinegar 5%", "vinegar", 5.0, 5.0, None);
        check(
            "vinegar, 5–6 % w/v",
            "vinegar",
            5.0,
            6.0,
            Some(PercentBasis::MassByVolume),
        );
        check("Essig 2,5 %", "Essig", 2.5, 2.5, None);
        // The digits of a formula are no part of its strength.
        check("C6H8O7 50 %", "C6H8O7", 50.0, 50.0, None);
        check("Na2CO3, 5 - 6 %", "Na2CO3", 5.0, 6.0, None);
        check("20 % Na2S2O3·5H2O", "Na2S2O3·5H2O", 20.0, 20.0, None);
        check(
            "28 % w/w ammonia",
            "ammonia",
            28.0,
            28.0,
            Some(PercentBasis::ByMass),
        );
        for text in [
            "vinegar",
            "vinegar %",
            "% vinegar",
            "vinegar 500 %",
            "1-2-3 % acid",
            "9-2 % acid",
            "C6H8O7 %",
        ] {
            assert_eq!(split(text), None, "{text}");
        }
    }
}
