//! A material in a bath, and what its name means in this notebook: under any name or formula, and by its amount as grams
//! or moles.

use crate::notebook::{Addition, Figure, Notebook};
use crate::pantry::{
    Form, Formula, FormulaError, Lookup, Material, Pantry, PercentBasis, Properties, Property, Strength,
    properties_of_formula,
};
use crate::scale::water::{DRIED_KEEPS, FRESH_KEEPS};
use crate::source::Spanned;
use crate::units::{Dimension, Range};

use super::density::density;
use super::shelf::is_liquid;
use super::stock::stock;

/// Per cent from which a strength by mass is the purity of a powder: no salt or acid of a kitchen makes so strong a
/// solution. From memory, unverified.
const POWDER: f64 = 80.0;

/// A material in a bath.
#[derive(Debug, Clone)]
pub struct Dose {
    /// The part it goes into; none in a bath of one part.
    pub part: Option<String>,
    /// The material as written.
    pub name: Spanned<String>,
    /// How much, as written.
    pub amount: Figure,
    /// What the name turned out to mean.
    pub known: Known,
}

/// What a material's name turned out to mean.
#[derive(Debug, Clone)]
pub enum Known {
    /// One material of the pantry, with the strength written beside its name or given by the shelf.
    Material {
        /// The material.
        material: Box<Material>,
        /// Its strength.
        strength: Option<Strength>,
    },
    /// A substance given by its formula alone.
    Formula(Formula),
    /// A material whose form was not said.
    NeedsForm {
        /// What the forms have in common.
        family: String,
        /// The forms' names.
        forms: Vec<String>,
        /// What all the forms are.
        properties: Properties,
    },
    /// A word that is used for several materials.
    Ambiguous {
        /// Their names.
        names: Vec<String>,
        /// What any of them is.
        properties: Properties,
    },
    /// Nothing known.
    Unknown {
        /// The known name that is most like it.
        nearest: Option<String>,
        /// What is wrong with it, where it looks like a formula.
        malformed: Option<FormulaError>,
    },
}

impl Known {
    /// The strength of the solution that it is, of what is a solid by itself: `citric acid 50 % w/v`.
    pub fn solution(&self) -> Option<Strength> {
        let Self::Material {
            material,
            strength: Some(strength),
        } = self
        else {
            return None;
        };
        let solid = material.formula.is_some() && !is_liquid(material);
        let dissolved = strength.high < POWDER || strength.basis == Some(PercentBasis::MassByVolume);
        (solid && dissolved).then_some(*strength)
    }

    /// Whether it is poured, not weighed.
    pub fn is_poured(&self) -> bool {
        match self {
            Self::Material { material, .. } => is_liquid(material) || self.solution().is_some(),
            _ => false,
        }
    }
}

impl Dose {
    /// What the material is to a darkroom.
    pub fn properties(&self) -> Properties {
        match &self.known {
            Known::Material { material, .. } => material.properties,
            Known::Formula(formula) => properties_of_formula(formula),
            Known::NeedsForm { properties, .. } | Known::Ambiguous { properties, .. } => *properties,
            Known::Unknown { .. } => Properties::NONE,
        }
    }

    /// Whether it has a property.
    pub fn is(&self, property: Property) -> bool {
        self.properties().contains(property)
    }

    /// The material, where it is exactly one.
    pub fn material(&self) -> Option<&Material> {
        match &self.known {
            Known::Material { material, .. } => Some(material),
            _ => None,
        }
    }

    /// The formula, where it is one substance.
    pub fn formula(&self) -> Option<&Formula> {
        match &self.known {
            Known::Material { material, .. } => material.formula.as_ref(),
            Known::Formula(formula) => Some(formula),
            _ => None,
        }
    }

    /// Grams of the material as it is weighed, for a bath of `litres`; none where what was written cannot be weighed.
    ///
    /// Of a solid in a solution of a stated strength those of the solid: 30 ml of 50 % w/v hold 15 g.
    pub fn grams(&self, litres: Range) -> Option<Range> {
        let amount = &self.amount.amount;
        if let Some(strength) = self.known.solution() {
            let by_volume = |of: Range| Some(of * strength.grams_per_litre()?);
            let by_mass = |of: Range| {
                let by_mass = strength.basis == Some(PercentBasis::ByMass);
                by_mass.then(|| of * strength.share())
            };
            match amount.dimension {
                Dimension::Volume => return by_volume(amount.range),
                Dimension::VolumeFraction => return by_volume(amount.range * litres),
                Dimension::Mass => return by_mass(amount.range),
                Dimension::MassConcentration => return by_mass(amount.range * litres),
                _ => {}
            }
        }
        match amount.dimension {
            Dimension::Mass => Some(amount.range),
            Dimension::AmountOfSubstance => Some(amount.range.scale(self.formula()?.molar_mass())),
            Dimension::MassConcentration => Some(amount.range * litres),
            Dimension::Molarity => Some((amount.range * litres).scale(self.formula()?.molar_mass())),
            Dimension::Volume => {
                let material = self.material()?;
                let millilitres = amount.range.scale(1000.0);
                let density = self.density();
                let spoon = material
                    .spoon
                    .as_ref()
                    .map(|spoon| spoon.range().map_monotone(|grams| grams / 5.0));
                Some(millilitres * density.or(spoon)?)
            }
            Dimension::Count => {
                let each = amount
                    .each
                    .as_ref()
                    .map(|each| each.range.scale(amount.range.best));
                each.or_else(|| {
                    let active = self.material()?.tablet_active.as_ref()?;
                    Some(active.range().scale(amount.range.best))
                })
            }
            _ => None,
        }
    }

    /// Millilitres of water that it keeps back when it is strained, for a bath of `litres`: as the pantry knows it, else as
    /// leaves of its form do.
    pub fn keeps_back(&self, litres: Range) -> Option<Range> {
        let material = self.material()?;
        let each = match (&material.keeps_back, material.form) {
            (Some(known), _) => known.range(),
            (None, _) if !self.is(Property::Plant) => return None,
            (None, Some(Form::Dried)) => DRIED_KEEPS,
            (None, Some(Form::Fresh)) => FRESH_KEEPS,
            (None, _) => return None,
        };
        Some(self.grams(litres)? * each)
    }

    /// Grams in a millilitre of it, of a liquid that is known.
    pub(super) fn density(&self) -> Option<Range> {
        match &self.known {
            Known::Material { material, strength } => density(material, *strength),
            _ => None,
        }
    }

    /// Why a solution of a solid cannot be taken for so many grams of it.
    pub(super) fn no_density(&self) -> String {
        let name = &self.name.value;
        match self.amount.dimension {
            Dimension::Volume | Dimension::VolumeFraction => format!(
                "how much is in a millilitre of `{name}` is not known without its density: write the strength as `% w/v`"
            ),
            _ => format!(
                "how much is in a gram of `{name}` is not known without its density: write the amount in ml, or the \
                 strength as `% w/w`"
            ),
        }
    }

    /// Moles of its formula, for a bath of `litres`.
    pub fn moles(&self, litres: Range) -> Option<Range> {
        let molar_mass = self.formula()?.molar_mass();
        self.grams(litres).map(|grams| grams.scale(1.0 / molar_mass))
    }

    /// The strength written beside the name, in grams per litre where its basis is by volume of solution.
    pub fn strength_grams_per_litre(&self) -> Option<Range> {
        let Known::Material {
            strength: Some(strength),
            ..
        } = &self.known
        else {
            return None;
        };
        strength.grams_per_litre()
    }
}

/// A material that is added; where the pantry does not know it, a recipe of the notebook may.
pub(super) fn dose(notebook: &Notebook, part: Option<String>, addition: &Addition) -> Dose {
    let dose = dose_of_pantry(notebook, part, addition);
    Dose {
        known: or_stock(notebook, &dose.name.value, dose.known),
        ..dose
    }
}

/// The same, by the pantry alone.
pub(super) fn dose_of_pantry(notebook: &Notebook, part: Option<String>, addition: &Addition) -> Dose {
    let name = addition.material.clone();
    let known = known_as_counted(notebook, &addition.amount, known_to_pantry(notebook, &name.value));
    let known = known_as_weighed(&addition.amount, &name.value, known);
    Dose {
        part,
        name,
        amount: addition.amount.clone(),
        known,
    }
}

/// `vitamin C: 6 × 500 mg tablets` says with its amount which of the things called vitamin C it means.
fn known_as_counted(notebook: &Notebook, amount: &Figure, known: Known) -> Known {
    let Known::Ambiguous { names, .. } = &known else {
        return known;
    };
    let tablets = amount.dimension == Dimension::Count || amount.each.is_some();
    let plain = |material: &&Material| {
        material.form == Some(Form::Tablet)
            && !material.is(Property::Effervescent)
            && !material.is(Property::Sugar)
    };
    let found = names
        .iter()
        .filter_map(|name| notebook.pantry.look_up(name).material());
    let found: Vec<&Material> = found.filter(plain).collect();
    match found.as_slice() {
        [material] if tablets => Known::Material {
            material: Box::new((*material).clone()),
            strength: None,
        },
        _ => known,
    }
}

/// `citric acid: 15 g` means the solid, though the shelf has it in a bottle only.
fn known_as_weighed(amount: &Figure, name: &str, known: Known) -> Known {
    let poured = matches!(amount.dimension, Dimension::Volume | Dimension::VolumeFraction);
    let of_shelf = known.solution().is_some() && !name.contains('%');
    match known {
        Known::Material { material, .. } if of_shelf && !poured => Known::Material {
            material,
            strength: None,
        },
        known => known,
    }
}

/// What a name means in this notebook, a recipe's among them; a strength that only the shelf states counts too.
pub fn known(notebook: &Notebook, name: &str) -> Known {
    or_stock(notebook, name, known_to_pantry(notebook, name))
}

fn or_stock(notebook: &Notebook, name: &str, known: Known) -> Known {
    if !matches!(known, Known::Unknown { .. }) {
        return known;
    }
    match stock(notebook, name) {
        Some(material) => Known::Material {
            material: Box::new(material),
            strength: None,
        },
        None => known,
    }
}

fn known_to_pantry(notebook: &Notebook, name: &str) -> Known {
    let pantry: &Pantry = &notebook.pantry;
    match pantry.look_up(name) {
        Lookup::Found { material, strength } => Known::Material {
            material: Box::new(material.clone()),
            strength: strength.or_else(|| shelf_strength(notebook, material)),
        },
        Lookup::Formula { formula, strength } if strength == Strength::PURE => Known::Formula(formula),
        Lookup::Formula { formula, strength } => Known::Material {
            material: Box::new(Material::of_formula(formula)),
            strength: Some(strength),
        },
        Lookup::NeedsForm { family, forms } => Known::NeedsForm {
            family: family.to_owned(),
            properties: common(&forms),
            forms: forms.iter().map(|form| form.name.clone()).collect(),
        },
        Lookup::Ambiguous(materials) => Known::Ambiguous {
            properties: common(&materials),
            names: materials.iter().map(|material| material.name.clone()).collect(),
        },
        Lookup::Malformed(error) => Known::Unknown {
            nearest: None,
            malformed: Some(error),
        },
        Lookup::Unknown { nearest } => Known::Unknown {
            nearest,
            malformed: None,
        },
    }
}

/// What all of several materials are.
fn common(materials: &[&Material]) -> Properties {
    let mut common = Properties::NONE;
    let Some((first, rest)) = materials.split_first() else {
        return common;
    };
    for property in first.properties.iter() {
        if rest.iter().all(|material| material.is(property)) {
            common.insert(property);
        }
    }
    common
}

/// The strength of the one packet on the shelf that is this material.
fn shelf_strength(notebook: &Notebook, material: &Material) -> Option<Strength> {
    let on_shelf = notebook.packets.on_shelf(&material.id).iter();
    let mut found = on_shelf.filter_map(|&at| {
        let (_, strength) = notebook.packets.material(at)?;
        let packet = notebook.settings.shelf.get(at)?;
        let written = packet.strength.get();
        let written = written.and_then(|figure| Strength::of_amount(figure.range, figure.dimension));
        written.or(strength)
    });
    let first = found.next()?;
    found.next().is_none().then_some(first)
}
