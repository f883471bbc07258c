//! What a material is, told from its formula or its contents alone.
//!
//! A salt is taken apart into cations and one kind of anion; the anions stand in `data/anions.yaml`.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

use super::element::Element;
use super::formula::Formula;
use super::load::{self, LoadError};
use super::material::{Basis, Share};
use super::property::{Properties, Property};

const ANIONS: &str = include_str!("data/anions.yaml");

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct AnionRow {
    anion: String,
    charge: u32,
    salt: Vec<String>,
    acid_salt: Vec<String>,
    acid: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SubstanceRow {
    formula: String,
    properties: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    source: String,
    anions: Vec<AnionRow>,
    substances: Vec<SubstanceRow>,
    cations: BTreeMap<String, u32>,
}

type Atoms = BTreeMap<Element, u32>;

/// An anion and what its salts are.
struct Anion {
    atoms: Atoms,
    /// The element by which anions are counted, and how many of it are in one.
    counted_by: (Element, u32),
    charge: u32,
    is_hydroxide: bool,
    is_sulfate: bool,
    is_carbonate: bool,
    salt: Properties,
    acid_salt: Properties,
    acid: Properties,
}

struct Table {
    source: String,
    anions: Vec<Anion>,
    substances: BTreeMap<Atoms, Properties>,
    cations: BTreeMap<Element, u32>,
}

fn formula(text: &str) -> Result<Formula, LoadError> {
    Formula::parse(text).map_err(|error| LoadError::new(format!("`{text}`: {error}")))
}

fn read(text: &str) -> Result<Table, LoadError> {
    let file: File = load::yaml("anions", text)?;
    let mut anions = Vec::new();
    for row in file.anions {
        let what = row.anion.as_str();
        let first = what.find(|c: char| c.is_ascii_lowercase()).filter(|&at| at == 1);
        let symbol = what.get(..=first.unwrap_or(0)).unwrap_or_default();
        let atoms = formula(what)?.elements().clone();
        let counted_by = Element::from_symbol(symbol)
            .and_then(|element| Some((element, *atoms.get(&element)?)))
            .ok_or_else(|| LoadError::new(format!("`{what}` does not begin with an element")))?;
        anions.push(Anion {
            atoms,
            counted_by,
            charge: row.charge,
            is_hydroxide: what == "OH",
            is_sulfate: what == "SO4",
            is_carbonate: what == "CO3",
            salt: load::properties(what, &row.salt)?,
            acid_salt: load::properties(what, &row.acid_salt)?,
            acid: load::properties(what, &row.acid)?,
        });
    }
    let mut substances = BTreeMap::new();
    for row in file.substances {
        let atoms = formula(&row.formula)?.elements().clone();
        substances.insert(atoms, load::properties(&row.formula, &row.properties)?);
    }
    let mut cations = BTreeMap::new();
    for (symbol, charge) in file.cations {
        let element = Element::from_symbol(&symbol)
            .ok_or_else(|| LoadError::new(format!("`{symbol}` is no element")))?;
        cations.insert(element, charge);
    }
    Ok(Table {
        source: file.source,
        anions,
        substances,
        cations,
    })
}

fn table() -> &'static Table {
    static TABLE: OnceLock<Table> = OnceLock::new();
    TABLE.get_or_init(|| match read(ANIONS) {
        Ok(table) => table,
        #[expect(
            clippy::panic,
            reason = "the text is part of the program; no notebook can reach this"
        )]
        Err(error) => panic!("the built-in anions are broken: {error}"),
    })
}

/// The bibliography key of the table of anions.
pub(super) fn anions_source() -> &'static str {
    &table().source
}

/// The properties that follow from a formula: what a renamed packet is, whatever it is called.
///
/// Recognised are the salts and acids of the usual cations with one kind of anion, and single substances by their exact
/// atoms; isomers cannot be told apart. What is not recognised has no properties.
pub fn properties_of_formula(formula: &Formula) -> Properties {
    let table = table();
    if let Some(&properties) = table.substances.get(formula.elements()) {
        return properties;
    }
    let found = table.anions.iter();
    found
        .filter_map(|anion| anion.salt_in(formula, &table.cations))
        .fold(Properties::NONE, Properties::union)
}

/// Below this mass fraction an acid no longer burns and an alcohol no longer catches fire.
///
/// A rule of thumb within the GHS limits for mixtures of single acids; common practice, no source.
const STRONG_FRACTION: f64 = 0.15;

/// The properties that a material has because it holds `share` of something with `properties`.
///
/// What only the pure or concentrated substance is, such as [`Property::ConcentratedAcid`], counts from a mass fraction
/// of 0.15 or 150 g/l; that something is [`Property::Food`] never counts.
pub(super) fn properties_by_share(share: &Share, properties: Properties) -> Properties {
    let fraction = match share.basis {
        Basis::MassFraction => share.amount.best(),
        Basis::GramsPerLitre => share.amount.best() / 1000.0,
    };
    let kept = |property: &Property| match property {
        Property::ConcentratedAcid | Property::Flammable | Property::Alcohol => fraction >= STRONG_FRACTION,
        Property::Food | Property::Plant => false,
        // A sum of phenols weighed as an acid is not that acid.
        Property::Acid | Property::Buffer => !share.equivalents,
        _ => true,
    };
    properties.iter().filter(kept).collect()
}

impl Anion {
    /// The properties of `formula` as a salt or acid of this anion, if that is what it is.
    fn salt_in(&self, formula: &Formula, cations: &BTreeMap<Element, u32>) -> Option<Properties> {
        let elements = formula.elements();
        let (counted_by, per_anion) = self.counted_by;
        let total = *elements.get(&counted_by)?;
        if !total.is_multiple_of(per_anion) {
            return None;
        }
        let anions = total / per_anion;
        // What is left without the anions must be cations.
        let mut left = elements.clone();
        for (element, &count) in &self.atoms {
            let there = left.get_mut(element)?;
            *there = there.checked_sub(anions.checked_mul(count)?)?;
        }
        let mut charge = 0_u32;
        let (mut hydrogen, mut nitrogen) = (0, 0);
        let mut metals = Vec::new();
        for (element, &count) in left.iter().filter(|(_, count)| **count > 0) {
            match element.symbol() {
                "H" => hydrogen = count,
                "N" => nitrogen = count,
                symbol => {
                    charge = charge.checked_add(count.checked_mul(*cations.get(element)?)?)?;
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
        let mut properties = match (acid, charge) {
            (0, _) => self.salt,
            (_, 0) => self.acid,
            // Sesquicarbonate is carbonate and hydrogen carbonate in one.
            _ if self.is_carbonate && charge > acid => self.salt.union(self.acid_salt),
            _ => self.acid_salt,
        };
        for metal in metals {
            match metal {
                "Ag" => properties.insert(Property::SilverSalt),
                "Al" | "Cr" if self.is_sulfate => {
                    properties.insert(Property::Hardener);
                    properties.insert(Property::Acid);
                }
                "Na" | "K" | "Li" if self.is_hydroxide => properties.insert(Property::Caustic),
                _ => {}
            }
        }
        if nitrogen > 0 {
            properties.insert(if self.is_hydroxide {
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
    use Property as P;

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
        check("NH4NO3", &[P::Oxidiser, P::Ammonium]);
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
        check("(C7H9NO)2·H2SO4", &[P::DevelopingAgent, P::Reductant]);
        check("C3H6O3", &[P::Acid]);
        check("HCOOH", &[P::Acid]);
        check("H2O2", &[P::Peroxide, P::Oxidiser]);
        check("C10H16O", &[]);
    }
}
