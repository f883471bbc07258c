//! What a material is, told from its formula alone: a salt is taken apart into cations and one kind of anion.

use super::element::Element;
use super::formula::Formula;
use super::property::{Properties, Property};

/// An anion: its atoms, its charge, the element that counts how many there are, and what salts of it are.
struct Anion {
    atoms: &'static [(&'static str, u32)],
    counted_by: &'static str,
    charge: u32,
    /// Of a salt without acid hydrogen.
    salt: &'static [Property],
    /// Of a salt that keeps some acid hydrogen.
    acid_salt: &'static [Property],
    /// Of the free acid.
    free: &'static [Property],
}

use Property as P;

/// The anions of the darkroom and the kitchen. Charges and compositions are those of any chemistry textbook.
const ANIONS: &[Anion] = &[
    anion(
        &[("C", 1), ("O", 3)],
        "C",
        2,
        &[P::Alkali, P::Carbonate, P::Buffer],
        &[P::Alkali, P::Bicarbonate],
        &[P::Acid],
    ),
    anion(
        &[("O", 1), ("H", 1)],
        "O",
        1,
        &[P::Alkali],
        &[P::Alkali],
        &[P::Water],
    ),
    anion(
        &[("S", 2), ("O", 3)],
        "S",
        2,
        &[P::Thiosulfate, P::SilverSolvent, P::Reductant],
        &[P::Thiosulfate, P::SilverSolvent],
        &[P::Thiosulfate, P::Acid],
    ),
    anion(
        &[("S", 1), ("O", 3)],
        "S",
        2,
        &[P::Sulfite, P::Reductant],
        &[P::Sulfite, P::Acid, P::Reductant],
        &[P::Sulfite, P::Acid],
    ),
    anion(
        &[("S", 2), ("O", 5)],
        "S",
        2,
        &[P::Sulfite, P::Acid, P::Reductant],
        &[P::Sulfite, P::Acid],
        &[P::Sulfite, P::Acid],
    ),
    anion(
        &[("S", 2), ("O", 4)],
        "S",
        2,
        &[P::Sulfite, P::Reductant],
        &[P::Sulfite, P::Reductant],
        &[P::Sulfite, P::Acid],
    ),
    anion(
        &[("S", 1), ("O", 4)],
        "S",
        2,
        &[],
        &[P::Acid],
        &[P::Acid, P::ConcentratedAcid],
    ),
    anion(
        &[("S", 2), ("O", 8)],
        "S",
        2,
        &[P::Oxidiser],
        &[P::Oxidiser],
        &[P::Oxidiser, P::Acid],
    ),
    anion(
        &[("S", 1)],
        "S",
        2,
        &[P::Sulfide, P::Alkali],
        &[P::Sulfide, P::Alkali],
        &[P::Sulfide],
    ),
    anion(
        &[("Cl", 1), ("O", 1)],
        "Cl",
        1,
        &[P::Hypochlorite, P::Oxidiser, P::Alkali],
        &[P::Hypochlorite, P::Oxidiser],
        &[P::Hypochlorite, P::Oxidiser],
    ),
    anion(
        &[("Cl", 1)],
        "Cl",
        1,
        &[P::Restrainer, P::FolkFixer],
        &[P::Acid],
        &[P::Acid, P::ConcentratedAcid],
    ),
    anion(
        &[("Br", 1)],
        "Br",
        1,
        &[P::Restrainer],
        &[P::Acid],
        &[P::Acid, P::ConcentratedAcid],
    ),
    anion(
        &[("I", 1)],
        "I",
        1,
        &[P::Restrainer],
        &[P::Acid],
        &[P::Acid, P::ConcentratedAcid],
    ),
    anion(
        &[("Mn", 1), ("O", 4)],
        "Mn",
        1,
        &[P::Permanganate, P::Oxidiser],
        &[P::Permanganate, P::Oxidiser],
        &[P::Permanganate, P::Oxidiser],
    ),
    anion(
        &[("Cr", 2), ("O", 7)],
        "Cr",
        2,
        &[P::Dichromate, P::Oxidiser],
        &[P::Dichromate, P::Oxidiser],
        &[P::Dichromate, P::Oxidiser],
    ),
    anion(
        &[("Cr", 1), ("O", 4)],
        "Cr",
        2,
        &[P::Dichromate, P::Oxidiser],
        &[P::Dichromate, P::Oxidiser],
        &[P::Dichromate, P::Oxidiser],
    ),
    anion(
        &[("Fe", 1), ("C", 6), ("N", 6)],
        "Fe",
        3,
        &[P::Ferricyanide, P::Oxidiser],
        &[P::Ferricyanide, P::Oxidiser],
        &[P::Ferricyanide],
    ),
    anion(
        &[("S", 1), ("C", 1), ("N", 1)],
        "S",
        1,
        &[P::Thiocyanate, P::SilverSolvent],
        &[P::Thiocyanate],
        &[P::Thiocyanate],
    ),
    anion(
        &[("B", 4), ("O", 7)],
        "B",
        2,
        &[P::Borate, P::Alkali, P::Buffer],
        &[P::Borate],
        &[P::Borate],
    ),
    anion(
        &[("B", 4), ("O", 9), ("H", 4)],
        "B",
        2,
        &[P::Borate, P::Alkali, P::Buffer],
        &[P::Borate],
        &[P::Borate],
    ),
    anion(
        &[("B", 1), ("O", 2)],
        "B",
        1,
        &[P::Borate, P::Alkali, P::Buffer],
        &[P::Borate],
        &[P::Borate],
    ),
    anion(
        &[("B", 1), ("O", 4), ("H", 4)],
        "B",
        1,
        &[P::Borate, P::Alkali, P::Buffer],
        &[P::Borate],
        &[P::Borate],
    ),
    anion(
        &[("B", 1), ("O", 3)],
        "B",
        3,
        &[P::Borate, P::Alkali],
        &[P::Borate],
        &[P::Borate],
    ),
    anion(
        &[("B", 1), ("O", 3)],
        "B",
        1,
        &[P::Borate, P::Alkali, P::Peroxide, P::Oxidiser],
        &[P::Borate],
        &[P::Borate],
    ),
    anion(
        &[("P", 1), ("O", 4)],
        "P",
        3,
        &[P::Phosphate, P::Alkali],
        &[P::Phosphate, P::Buffer],
        &[P::Phosphate, P::Acid],
    ),
    anion(
        &[("N", 1), ("O", 3)],
        "N",
        1,
        &[P::Oxidiser],
        &[P::Oxidiser],
        &[P::Acid, P::ConcentratedAcid, P::Oxidiser],
    ),
    anion(
        &[("C", 2), ("H", 3), ("O", 2)],
        "C",
        1,
        &[P::Buffer],
        &[P::Acid, P::Buffer],
        &[P::Acid],
    ),
    anion(
        &[("C", 6), ("H", 5), ("O", 7)],
        "C",
        3,
        &[P::Buffer],
        &[P::Acid, P::Buffer],
        &[P::Acid],
    ),
    anion(
        &[("C", 4), ("H", 4), ("O", 6)],
        "C",
        2,
        &[P::Buffer],
        &[P::Acid, P::Buffer],
        &[P::Acid],
    ),
    anion(
        &[("C", 2), ("O", 4)],
        "C",
        2,
        &[P::Buffer],
        &[P::Acid, P::Buffer],
        &[P::Acid],
    ),
    anion(
        &[("C", 8), ("H", 4), ("O", 4)],
        "C",
        2,
        &[P::Buffer],
        &[P::Acid, P::Buffer],
        &[P::Acid],
    ),
    anion(
        &[("C", 6), ("H", 6), ("O", 6)],
        "C",
        2,
        &[P::Ascorbate, P::DevelopingAgent, P::Reductant],
        &[P::Ascorbate, P::DevelopingAgent, P::Reductant],
        &[P::Ascorbate, P::Acid, P::DevelopingAgent, P::Reductant],
    ),
];

const fn anion(
    atoms: &'static [(&'static str, u32)],
    counted_by: &'static str,
    charge: u32,
    salt: &'static [Property],
    acid_salt: &'static [Property],
    free: &'static [Property],
) -> Anion {
    Anion {
        atoms,
        counted_by,
        charge,
        salt,
        acid_salt,
        free,
    }
}

/// Single charges a cation may carry, by symbol. Ammonium is counted apart.
const CATIONS: &[(&str, u32)] = &[
    ("Na", 1),
    ("K", 1),
    ("Li", 1),
    ("Ag", 1),
    ("Mg", 2),
    ("Ca", 2),
    ("Ba", 2),
    ("Zn", 2),
    ("Fe", 2),
    ("Cu", 2),
    ("Pb", 2),
    ("Al", 3),
    ("Cr", 3),
];

/// Substances that are no simple salts.
const WHOLE: &[(&str, &[Property])] = &[
    ("H2O2", &[P::Peroxide, P::Oxidiser]),
    (
        "2Na2CO3·3H2O2",
        &[P::Peroxide, P::Oxidiser, P::Alkali, P::Carbonate],
    ),
    ("NH3", &[P::Ammonia, P::Alkali]),
    ("H3NSO3", &[P::Acid]),
    ("SO2", &[P::Sulfite, P::Acid]),
    // Hydroquinone, catechol.
    ("C6H6O2", &[P::DevelopingAgent, P::Reductant, P::Phenolic]),
    // Pyrogallol.
    ("C6H6O3", &[P::DevelopingAgent, P::Reductant, P::Phenolic]),
    // Gallic acid.
    ("C7H6O5", &[P::DevelopingAgent, P::Reductant, P::Phenolic]),
    // Caffeic, chlorogenic, rosmarinic and tannic acid.
    ("C9H8O4", &[P::DevelopingAgent, P::Reductant, P::Phenolic]),
    ("C16H18O9", &[P::DevelopingAgent, P::Reductant, P::Phenolic]),
    ("C18H16O8", &[P::DevelopingAgent, P::Reductant, P::Phenolic]),
    ("C76H52O46", &[P::DevelopingAgent, P::Reductant, P::Phenolic]),
    // Metol, 4-aminophenol, phenidone, dimezone, glycin, amidol.
    ("C14H20N2O6S", &[P::DevelopingAgent, P::Reductant]),
    ("C6H7NO", &[P::DevelopingAgent, P::Reductant]),
    ("C9H10N2O", &[P::DevelopingAgent, P::Reductant]),
    ("C11H14N2O", &[P::DevelopingAgent, P::Reductant]),
    ("C8H9NO3", &[P::DevelopingAgent, P::Reductant]),
    ("C6H8N2O·2HCl", &[P::DevelopingAgent, P::Reductant]),
    ("C2H6O", &[P::Alcohol, P::Flammable]),
    ("C3H8O", &[P::Alcohol, P::Flammable]),
    ("CH4O", &[P::Alcohol, P::Flammable]),
    ("C3H6O", &[P::Flammable]),
    ("C6H12O6", &[P::Sugar]),
    ("C12H22O11", &[P::Sugar]),
];

/// The properties that follow from a formula: what a renamed packet is, whatever it is called.
///
/// Recognised are the salts and acids of the usual cations with one kind of anion, and single substances by their exact
/// atoms; isomers cannot be told apart. What is not recognised has no properties.
pub fn properties_of_formula(formula: &Formula) -> Properties {
    let mut properties: Properties = WHOLE
        .iter()
        .filter(|(text, _)| Formula::parse(text).is_ok_and(|whole| whole.elements() == formula.elements()))
        .flat_map(|(_, properties)| properties.iter().copied())
        .collect();
    if properties.is_empty() {
        for anion in ANIONS {
            if let Some(salt) = anion.part_of(formula) {
                properties = properties.union(salt);
            }
        }
    }
    properties
}

impl Anion {
    /// The properties of `formula` as a salt or acid of this anion, if that is what it is.
    fn part_of(&self, formula: &Formula) -> Option<Properties> {
        let own = |symbol| {
            let mut atoms = self.atoms.iter();
            atoms.find(|(of, _)| *of == symbol).map_or(0, |&(_, count)| count)
        };
        let total = formula.count(self.counted_by);
        let per_anion = own(self.counted_by);
        if total == 0 || total % per_anion != 0 {
            return None;
        }
        let anions = total / per_anion;
        let left =
            |element: &Element, count: u32| count.checked_sub(anions.checked_mul(own(element.symbol()))?);
        // Every atom of the anion must be there, and what is left must be cations.
        for &(symbol, count) in self.atoms {
            if formula.count(symbol) < anions.checked_mul(count)? {
                return None;
            }
        }
        let mut charge = 0_u32;
        let (mut hydrogen, mut nitrogen) = (0, 0);
        let mut metals = Vec::new();
        for (element, &count) in formula.elements() {
            let rest = left(element, count)?;
            match (element.symbol(), rest) {
                (_, 0) => {}
                ("H", rest) => hydrogen = rest,
                ("N", rest) => nitrogen = rest,
                (symbol, rest) => {
                    let &(symbol, single) = CATIONS.iter().find(|(cation, _)| *cation == symbol)?;
                    charge = charge.checked_add(rest.checked_mul(single)?)?;
                    metals.push(symbol);
                }
            }
        }
        // Each nitrogen that is left is ammonium; what hydrogen is left then is acid hydrogen.
        let acid = hydrogen.checked_sub(nitrogen.checked_mul(4)?)?;
        charge = charge.checked_add(nitrogen)?;
        if charge.checked_add(acid)? != anions.checked_mul(self.charge)? {
            return None;
        }
        let mut properties: Properties = match (acid, charge) {
            (0, _) => self.salt,
            (_, 0) => self.free,
            _ => self.acid_salt,
        }
        .iter()
        .copied()
        .collect();
        if acid > 0 && charge > 0 && self.charge == 2 && charge > acid && self.counted_by == "C" {
            // Sesquicarbonate holds both.
            properties = self.salt.iter().copied().chain(properties.iter()).collect();
        }
        let hydroxide = self.atoms == [("O", 1), ("H", 1)];
        for metal in metals {
            match metal {
                "Ag" => properties.insert(Property::SilverSalt),
                "Al" | "Cr" if self.atoms == [("S", 1), ("O", 4)] => {
                    properties.insert(Property::Hardener);
                    properties.insert(Property::Acid);
                }
                "Na" | "K" | "Li" if hydroxide => properties.insert(Property::Caustic),
                _ => {}
            }
        }
        if nitrogen > 0 {
            properties.insert(if hydroxide {
                Property::Ammonia
            } else {
                Property::Ammonium
            });
        }
        Some(properties)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: &[Property]) {
        let formula = Formula::parse(text).unwrap();
        let expected: Properties = expected.iter().copied().collect();
        assert_eq!(properties_of_formula(&formula), expected, "{text}");
    }

    #[test]
    fn salts_are_told_from_their_atoms() {
        check("Na2CO3·10H2O", &[P::Alkali, P::Carbonate, P::Buffer]);
        check("K2CO3", &[P::Alkali, P::Carbonate, P::Buffer]);
        check("NaHCO3", &[P::Alkali, P::Bicarbonate]);
        check("NH4HCO3", &[P::Alkali, P::Bicarbonate, P::Ammonium]);
        check(
            "Na3H(CO3)2·2H2O",
            &[P::Alkali, P::Carbonate, P::Buffer, P::Bicarbonate],
        );
        check("NaOH", &[P::Alkali, P::Caustic]);
        check("Ca(OH)2", &[P::Alkali]);
        check("NH4OH", &[P::Alkali, P::Ammonia]);
        check("H2O", &[P::Water]);
        check("Na2S2O3·5H2O", &[P::Thiosulfate, P::SilverSolvent, P::Reductant]);
        check(
            "(NH4)2S2O3",
            &[P::Thiosulfate, P::SilverSolvent, P::Reductant, P::Ammonium],
        );
        check("Na2SO3", &[P::Sulfite, P::Reductant]);
        check("NaHSO3", &[P::Sulfite, P::Reductant, P::Acid]);
        check("K2S2O5", &[P::Sulfite, P::Reductant, P::Acid]);
        check("NaOCl", &[P::Hypochlorite, P::Oxidiser, P::Alkali]);
        check("Ca(ClO)2", &[P::Hypochlorite, P::Oxidiser, P::Alkali]);
        check("KMnO4", &[P::Permanganate, P::Oxidiser]);
        check("K3Fe(CN)6", &[P::Ferricyanide, P::Oxidiser]);
        check("K4Fe(CN)6", &[]);
        check("Na2B4O7·10H2O", &[P::Borate, P::Alkali, P::Buffer]);
        check("Na2B4O5(OH)4·8H2O", &[P::Borate, P::Alkali, P::Buffer]);
        check("H3BO3", &[P::Borate]);
        check("NaCl", &[P::Restrainer, P::FolkFixer]);
        check("HCl", &[P::Acid, P::ConcentratedAcid]);
        check("AgNO3", &[P::SilverSalt, P::Oxidiser]);
        check("KAl(SO4)2·12H2O", &[P::Hardener, P::Acid]);
        check("Na2SO4", &[]);
    }

    #[test]
    fn organic_acids_and_agents_are_told_from_their_atoms() {
        check("CH3COOH", &[P::Acid]);
        check("C6H8O7·H2O", &[P::Acid]);
        check("Na3C6H5O7", &[P::Buffer]);
        check("KH2C6H5O7", &[P::Acid, P::Buffer]);
        check(
            "C6H8O6",
            &[P::Ascorbate, P::Acid, P::DevelopingAgent, P::Reductant],
        );
        check("NaC6H7O6", &[P::Ascorbate, P::DevelopingAgent, P::Reductant]);
        check("C6H4(OH)2", &[P::DevelopingAgent, P::Reductant, P::Phenolic]);
        check("C16H18O9", &[P::DevelopingAgent, P::Reductant, P::Phenolic]);
        check("H2O2", &[P::Peroxide, P::Oxidiser]);
        check("C10H16O", &[]);
    }
}
