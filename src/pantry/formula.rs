//! Chemical formulas: reading them, counting their atoms and weighing them.

use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::fmt;
use std::ops::Range;

use super::element::Element;
use super::formula_text::Reader;

/// The atoms of one formula unit, with its water of crystallisation kept apart.
///
/// Formulas are equal if they have the same atoms and the same water, however they were written.
#[derive(Debug, Clone)]
pub struct Formula {
    text: String,
    elements: BTreeMap<Element, u32>,
    water: u32,
}

/// What is wrong with a text that was to be a formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FormulaFault {
    /// It does not look like a formula at all; it may be a name.
    NotAFormula,
    /// Nothing was written.
    Empty,
    /// It is longer than any formula need be.
    TooLong,
    /// A symbol that is no element of the table.
    UnknownElement,
    /// A bracket without its partner, or with nothing in it.
    Bracket,
    /// A count of nothing, of zero, or too large.
    Count,
    /// A character that has no place there.
    Character,
    /// A dot without a formula on both sides.
    Dot,
}

/// Why a text is not a formula, and where in the text that shows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FormulaError {
    /// What is wrong.
    pub fault: FormulaFault,
    /// The bytes of the text that are wrong.
    pub range: Range<usize>,
    /// The same in words: lower case, no full stop, what was written between backticks.
    pub message: String,
}

impl FormulaError {
    pub(super) fn new(fault: FormulaFault, range: Range<usize>, message: impl Into<String>) -> Self {
        Self {
            fault,
            range,
            message: message.into(),
        }
    }

    /// Whether the text looks like a formula, so that the error is about a slip in one rather than about a name.
    pub fn is_malformed(&self) -> bool {
        !matches!(self.fault, FormulaFault::NotAFormula | FormulaFault::Empty)
    }
}

impl fmt::Display for FormulaError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for FormulaError {}

impl Formula {
    /// Reads a formula such as `Na2CO3`, `Ca(OH)2`, `[Ag(S2O3)2]` or `Na2CO3·10H2O`.
    ///
    /// The dot before water may be `·`, `•`, `⋅`, `*` or `.`, with spaces round it; digits may be subscripts. A part may
    /// have a number before it. Charges are refused: a material is neutral. The error says whether the text is a formula
    /// with a slip in it or no formula at all.
    pub fn parse(text: &str) -> Result<Self, FormulaError> {
        Reader::new(text)?.read()
    }

    /// The formula as it was written, with plain digits, `·` for the dot and no spaces.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// The atoms without the water of crystallisation.
    pub fn elements(&self) -> &BTreeMap<Element, u32> {
        &self.elements
    }

    /// How many atoms of the element with this symbol one unit holds, without the water of crystallisation.
    pub fn count(&self, symbol: &str) -> u32 {
        Element::from_symbol(symbol)
            .and_then(|element| self.elements.get(&element))
            .copied()
            .unwrap_or(0)
    }

    /// Molecules of water of crystallisation in one formula unit.
    pub fn water(&self) -> u32 {
        self.water
    }

    /// The same substance without its water of crystallisation.
    #[must_use]
    pub fn anhydrous(&self) -> Self {
        let parts = self.text.split('·').enumerate();
        let dry = parts.filter(|&(at, part)| at == 0 || !is_water(part));
        Self {
            text: dry.map(|(_, part)| part).collect::<Vec<_>>().join("·"),
            elements: self.elements.clone(),
            water: 0,
        }
    }

    /// A formula of these atoms and waters, written as `text`.
    pub(super) fn from_parts(text: String, elements: BTreeMap<Element, u32>, water: u32) -> Self {
        Self {
            text,
            elements,
            water,
        }
    }

    /// Molar mass in g/mol, with the water of crystallisation.
    ///
    /// The sum of the standard atomic weights (IUPAC 2021, see [`Element::weight`]).
    pub fn molar_mass(&self) -> f64 {
        self.anhydrous_molar_mass() + f64::from(self.water) * water_molar_mass()
    }

    /// Molar mass in g/mol without the water of crystallisation.
    pub fn anhydrous_molar_mass(&self) -> f64 {
        let masses = self.elements.iter();
        masses
            .map(|(element, &count)| f64::from(count) * element.weight())
            .sum()
    }

    /// The part of the mass that is water of crystallisation, from 0 to 1.
    pub fn water_share(&self) -> f64 {
        f64::from(self.water) * water_molar_mass() / self.molar_mass()
    }
}

/// Molar mass of water in g/mol.
fn water_molar_mass() -> f64 {
    let weight = |symbol| Element::from_symbol(symbol).map_or(0.0, Element::weight);
    2.0 * weight("H") + weight("O")
}

pub(super) fn is_water(part: &str) -> bool {
    part.trim_start_matches(|c: char| c.is_ascii_digit()) == "H2O"
}

impl fmt::Display for Formula {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl PartialEq for Formula {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Formula {}

impl PartialOrd for Formula {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Formula {
    fn cmp(&self, other: &Self) -> Ordering {
        (&self.elements, self.water).cmp(&(&other.elements, other.water))
    }
}

impl std::str::FromStr for Formula {
    type Err = FormulaError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::parse(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fault(text: &str) -> (FormulaFault, Range<usize>) {
        let error = Formula::parse(text).unwrap_err();
        (error.fault, error.range)
    }

    #[test]
    fn the_dot_and_the_digits_are_read_in_every_spelling() {
        let plain = Formula::parse("Na2CO3·10H2O").unwrap();
        assert_eq!(plain.water(), 10);
        assert_eq!(plain.count("O"), 3);
        for text in [
            "Na2CO3.10H2O",
            "Na2CO3 * 10 H2O",
            "Na2CO3•10H2O",
            "Na₂CO₃·10H₂O",
            " Na2CO3 . 10H2O ",
        ] {
            let formula = Formula::parse(text).unwrap();
            assert_eq!(formula, plain, "{text}");
            assert_eq!(formula.as_str(), "Na2CO3·10H2O");
        }
        assert_eq!(plain.anhydrous().as_str(), "Na2CO3");
        assert_ne!(plain.anhydrous(), plain);
    }

    #[test]
    fn brackets_multiply() {
        let alum = Formula::parse("KAl(SO4)2·12H2O").unwrap();
        assert_eq!((alum.count("S"), alum.count("O"), alum.water()), (2, 8, 12));
        let complex = Formula::parse("Na3[Ag(S2O3)2]").unwrap();
        assert_eq!((complex.count("S"), complex.count("O")), (4, 6));
        assert_eq!(Formula::parse("H2O").unwrap().water(), 0);
        let percarbonate = Formula::parse("2Na2CO3·3H2O2").unwrap();
        assert_eq!((percarbonate.count("Na"), percarbonate.count("O")), (4, 12));
        assert_eq!(percarbonate.anhydrous().as_str(), "2Na2CO3·3H2O2");
    }

    #[test]
    fn slips_are_shown_where_they_are() {
        assert_eq!(fault("Na2Xy3"), (FormulaFault::UnknownElement, 3..5));
        assert_eq!(fault("Ca(OH2"), (FormulaFault::Bracket, 2..3));
        assert_eq!(fault("CaOH)2"), (FormulaFault::Bracket, 4..5));
        assert_eq!(fault("Ca(OH]2"), (FormulaFault::Bracket, 5..6));
        assert_eq!(fault("Ca()2"), (FormulaFault::Bracket, 2..4));
        assert_eq!(fault("Na0Cl"), (FormulaFault::Count, 2..3));
        assert_eq!(fault("Na99999999999"), (FormulaFault::Count, 2..13));
        assert_eq!(fault("((H999999)999999)9").0, FormulaFault::Count);
        assert_eq!(fault("Na2CO3·").0, FormulaFault::Dot);
        assert_eq!(fault("·10H2O").0, FormulaFault::Dot);
        assert_eq!(fault("Na2CO3 10H2O"), (FormulaFault::Character, 7..8));
        assert_eq!(fault("CO3-2"), (FormulaFault::Character, 3..4));
        assert_eq!(fault("(((((((((H)))))))))").0, FormulaFault::Bracket);
        assert_eq!(fault(&"H2".repeat(200)).0, FormulaFault::TooLong);
        assert!(Formula::parse("Na2Xy3").unwrap_err().is_malformed());
    }

    #[test]
    fn names_are_no_malformed_formulas() {
        for text in [
            "NotAThing",
            "water",
            "Hypo",
            "vinegar 5 %",
            "Tin",
            "KHPhth",
            "12",
            "NaXl",
        ] {
            let error = Formula::parse(text).unwrap_err();
            assert_eq!(error.fault, FormulaFault::NotAFormula, "{text}");
            assert!(!error.is_malformed());
        }
        assert_eq!(fault("").0, FormulaFault::Empty);
        assert_eq!(fault("  "), (FormulaFault::Empty, 0..2));
    }
}
