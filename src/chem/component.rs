//! A substance taken apart into what the model conserves.

use std::fmt;

use super::atoms::{Parts, free_water, parts_of};
use super::data::{Data, Family};
use super::names;
use crate::pantry::{Formula, Lookup, Material, Pantry};
use crate::units::scalar::Mass;

/// Molar mass of water in g/mol, from the standard atomic weights (IUPAC 2021).
pub(super) const WATER: f64 = 18.015;

/// A substance as so many units of each conserved total, with the water of crystallisation that one mole brings.
#[derive(Debug, Clone, PartialEq)]
pub struct Component {
    name: String,
    parts: Vec<(usize, f64)>,
    crystal_water: f64,
    molar_mass: Option<f64>,
}

/// Why a substance cannot be taken apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotKnown {
    /// Nothing is known by that name.
    Name {
        /// What was asked for.
        name: String,
        /// The known name that is most like it.
        nearest: Option<String>,
    },
    /// The name may stand for several substances.
    SeveralForms {
        /// What was asked for.
        name: String,
        /// What it may be.
        forms: Vec<String>,
    },
    /// The substance holds something of which the model has no constants.
    Unmodelled {
        /// The substance.
        name: String,
    },
    /// What the material consists of is not known.
    Composition {
        /// The material.
        name: String,
    },
}

impl fmt::Display for NotKnown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Name {
                name,
                nearest: Some(nearest),
            } => {
                write!(f, "`{name}` is no known substance; the nearest is `{nearest}`")
            }
            Self::Name { name, nearest: None } => write!(f, "`{name}` is no known substance"),
            Self::SeveralForms { name, forms } => {
                write!(f, "`{name}` may be any of these: {}", forms.join(", "))
            }
            Self::Unmodelled { name } => {
                write!(
                    f,
                    "what `{name}` does in water is not computed: there are no constants for it"
                )
            }
            Self::Composition { name } => write!(f, "what `{name}` consists of is not known"),
        }
    }
}

impl std::error::Error for NotKnown {}

impl Component {
    /// The component with a laboratory sign (`H2Asc`, `KHPhth`), a formula (`Na2CO3·10H2O`), a chemical name or the name of
    /// a pantry material with a formula.
    pub fn named(name: &str) -> Result<Self, NotKnown> {
        let name = name.trim();
        let data = Data::standard();
        if let Some(found) = Self::from_sign(data, name) {
            return Ok(found);
        }
        if let Ok(formula) = Formula::parse(name) {
            return Self::of_formula(&formula);
        }
        if let Some(formula) = names::formula_of_name(name) {
            return Self::of_formula(&formula);
        }
        match Pantry::standard().look_up(name) {
            Lookup::Found { material, .. } => Self::of_material(material),
            Lookup::NeedsForm { forms, .. } | Lookup::Ambiguous(forms) => Err(NotKnown::SeveralForms {
                name: name.to_owned(),
                forms: forms.iter().map(|material| material.name.clone()).collect(),
            }),
            Lookup::Formula { formula, .. } => Self::of_formula(&formula),
            Lookup::Malformed(_) => Err(NotKnown::Name {
                name: name.to_owned(),
                nearest: None,
            }),
            Lookup::Unknown { nearest } => Err(NotKnown::Name {
                name: name.to_owned(),
                nearest,
            }),
        }
    }

    /// The component that a formula stands for: salts and acids of the ions here, give or take water.
    ///
    /// Isomers cannot be told apart: `C6H6O2` is taken for hydroquinone.
    pub fn of_formula(formula: &Formula) -> Result<Self, NotKnown> {
        let data = Data::standard();
        let parts = parts_of(data, formula).ok_or_else(|| NotKnown::Unmodelled {
            name: formula.to_string(),
        })?;
        Ok(Self {
            name: formula.to_string(),
            parts,
            crystal_water: f64::from(formula.water() + free_water(formula)),
            molar_mass: Some(formula.molar_mass()),
        })
    }

    /// The component that a pure material of the pantry is.
    pub fn of_material(material: &Material) -> Result<Self, NotKnown> {
        let Some(formula) = &material.formula else {
            return Err(NotKnown::Composition {
                name: material.name.clone(),
            });
        };
        let data = Data::standard();
        let names = material.symbols.iter().chain([&material.name, &material.id]);
        // A name tells isomers apart that the formula cannot.
        for name in names {
            let mut families = data.families.iter().enumerate();
            if let Some((slot, family)) = families.find(|(_, family)| is_word(family, name))
                && family.acid.elements() == formula.elements()
            {
                return Ok(Self {
                    name: material.name.clone(),
                    parts: vec![(slot, 1.0)],
                    crystal_water: f64::from(formula.water()),
                    molar_mass: Some(formula.molar_mass()),
                });
            }
        }
        Self::of_formula(formula).map(|component| Self {
            name: material.name.clone(),
            ..component
        })
    }

    /// What it is called.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Grams in a mole, water of crystallisation included.
    pub fn molar_mass(&self) -> Option<f64> {
        self.molar_mass
    }

    /// The water that one mole brings.
    pub fn crystal_water(&self) -> Mass {
        Mass::from_grams(self.crystal_water * WATER)
    }

    pub(super) fn parts(&self) -> &[(usize, f64)] {
        &self.parts
    }

    /// Reads `ascorbic`, `H2Asc`, `KH2Cit`: a word for an acid, or cations and hydrogen before its sign.
    fn from_sign(data: &Data, text: &str) -> Option<Self> {
        for (slot, family) in data.families.iter().enumerate() {
            if is_word(family, text) {
                return Some(Self {
                    name: text.to_owned(),
                    parts: vec![(slot, 1.0)],
                    crystal_water: 0.0,
                    molar_mass: Some(family.acid.molar_mass()),
                });
            }
            for short in &family.short {
                let Some(before) = text.strip_suffix(short.as_str()) else {
                    continue;
                };
                let Some((mut parts, cations, protons)) = cations_of(data, before) else {
                    continue;
                };
                let charge = family.steps.len() as u32;
                if cations > charge {
                    continue;
                }
                // A sodium counts as what the anion may carry; the hydrogen written need not be complete (`NaAsc`).
                let known_protons = charge - cations;
                if protons > known_protons + 1 {
                    continue;
                }
                parts.push((slot, 1.0));
                let salt: f64 = parts
                    .iter()
                    .filter_map(|&(part, count)| Some(count * cation_weight(data, part)?))
                    .sum();
                let hydrogen = 1.008;
                return Some(Self {
                    name: text.to_owned(),
                    parts,
                    crystal_water: 0.0,
                    molar_mass: Some(family.acid.molar_mass() + salt - f64::from(cations) * hydrogen),
                });
            }
        }
        None
    }
}

fn is_word(family: &Family, text: &str) -> bool {
    family.words.iter().any(|word| word.eq_ignore_ascii_case(text)) || family.id.eq_ignore_ascii_case(text)
}

/// Mass of the cation of a slot in g/mol.
fn cation_weight(data: &Data, slot: usize) -> Option<f64> {
    let strong = data.strong.get(slot.checked_sub(data.families.len())?)?;
    let element = strong.element.as_deref()?;
    Formula::parse(element).ok().map(|formula| formula.molar_mass())
}

/// Reads a run of cations and hydrogens with their counts: parts, how many cations, how many hydrogens.
fn cations_of(data: &Data, text: &str) -> Option<(Parts, u32, u32)> {
    let mut parts = Vec::new();
    let (mut cations, mut protons) = (0_u32, 0_u32);
    let mut rest = text;
    while !rest.is_empty() {
        let elements = data.strong.iter().enumerate().filter_map(|(at, ion)| {
            let after = rest.strip_prefix(ion.element.as_deref()?)?;
            Some((data.slot_of_strong(at), after))
        });
        let ammonia = data.slot("ammonia");
        let ammonium = rest.strip_prefix("NH4").and_then(|after| Some((ammonia?, after)));
        let found = elements.chain(ammonium).next();
        let after = match found {
            Some((_, after)) => after,
            None => rest.strip_prefix('H')?,
        };
        let digits = after.len() - after.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let (number, tail) = after.split_at(digits);
        let count: u32 = if number.is_empty() {
            1
        } else {
            number.parse().ok().filter(|n| *n <= 9)?
        };
        match found {
            Some((slot, _)) => {
                parts.push((slot, f64::from(count)));
                cations += count;
            }
            None => protons += count,
        }
        rest = tail;
    }
    Some((parts, cations, protons))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(name: &str, expected: &[(&str, f64)]) {
        let data = Data::standard();
        let component = Component::named(name).unwrap_or_else(|error| panic!("{error}"));
        let mut found = component.parts;
        found.sort_by(|a, b| a.partial_cmp(b).unwrap());
        let mut expected: Vec<_> = expected
            .iter()
            .map(|&(id, n)| (data.slot(id).unwrap(), n))
            .collect();
        expected.sort_by(|a, b| a.partial_cmp(b).unwrap());
        assert_eq!(found, expected, "{name}");
    }

    #[test]
    fn formulas_are_taken_apart() {
        check("Na2CO3", &[("Na+", 2.0), ("carbonic", 1.0)]);
        check("Na2CO3·10H2O", &[("Na+", 2.0), ("carbonic", 1.0)]);
        check("Na3H(CO3)2·2H2O", &[("Na+", 3.0), ("carbonic", 2.0)]);
        check("Na2B4O7·10H2O", &[("Na+", 2.0), ("boric", 4.0)]);
        check("Na2S2O5", &[("Na+", 2.0), ("sulfurous", 2.0)]);
        check("Na2S2O3", &[("Na+", 2.0), ("thiosulfuric", 1.0)]);
        check("(NH4)2S2O3", &[("ammonia", 2.0), ("thiosulfuric", 1.0)]);
        check("NH4Cl", &[("ammonia", 1.0), ("Cl-", 1.0)]);
        check("NaOH", &[("Na+", 1.0)]);
        check("KH3(C2O4)2·2H2O", &[("K+", 1.0), ("oxalic", 2.0)]);
        check("KNaC4H4O6·4H2O", &[("K+", 1.0), ("Na+", 1.0), ("tartaric", 1.0)]);
        check("C6H5O7Na3", &[("Na+", 3.0), ("citric", 1.0)]);
        check("C18H16O8", &[("rosmarinic", 1.0)]);
        check("C9H8O4", &[("caffeic", 1.0)]);
        check("CO2", &[("carbonic", 1.0)]);
        check("NH4HCO3", &[("ammonia", 1.0), ("carbonic", 1.0)]);
        check("C6H12O6", &[]);
        check("H2O", &[]);
    }

    #[test]
    fn laboratory_signs_are_read() {
        check("H2Asc", &[("ascorbic", 1.0)]);
        check("NaAsc", &[("Na+", 1.0), ("ascorbic", 1.0)]);
        check("Na2HCit", &[("Na+", 2.0), ("citric", 1.0)]);
        check("KH2Cit", &[("K+", 1.0), ("citric", 1.0)]);
        check("KHPhth", &[("K+", 1.0), ("phthalic", 1.0)]);
        check("HAc", &[("acetic", 1.0)]);
        check("NaAc", &[("Na+", 1.0), ("acetic", 1.0)]);
        check("caffeic", &[("caffeic", 1.0)]);
        check("catechol", &[("catechol", 1.0)]);
        check("HQ", &[("hydroquinone", 1.0)]);
        check("borax", &[("Na+", 2.0), ("boric", 4.0)]);
    }

    #[test]
    fn what_has_no_constants_is_refused() {
        for name in [
            "H3NSO3",
            "KAl(SO4)2·12H2O",
            "NaOCl",
            "Na2S2O8",
            "Ca(OH)2",
            "H2O2",
            "Na2S",
        ] {
            assert!(
                matches!(Component::named(name), Err(NotKnown::Unmodelled { .. })),
                "{name}"
            );
        }
        assert!(matches!(
            Component::named("quixotite"),
            Err(NotKnown::Name { .. })
        ));
    }

    #[test]
    fn a_sign_weighs_what_its_formula_weighs() {
        for (sign, formula) in [
            ("NaAsc", "NaC6H7O6"),
            ("KHPhth", "KHC8H4O4"),
            ("Na3Cit", "Na3C6H5O7"),
        ] {
            let mass = Component::named(sign).unwrap().molar_mass().unwrap();
            let expected = Formula::parse(formula).unwrap().molar_mass();
            assert!((mass - expected).abs() < 1e-6, "{sign}: {mass}");
        }
    }
}
