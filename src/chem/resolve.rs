//! A pantry material, however measured, as moles of components with their ranges.

use super::component::{Component, NotKnown};
use super::dissolve::water_for_volume;
use crate::pantry::{Basis, Figure, Material, Pantry, Property};
use crate::units::Range;
use crate::units::scalar::{AmountOfSubstance, Temperature, Volume};

/// How deep mixtures may hold mixtures.
const DEEPEST: u32 = 6;

/// How much of a material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measure {
    /// Grams of it as it comes.
    Grams(Range),
    /// Millilitres of it as it comes.
    Millilitres(Range),
    /// Moles of what its formula says.
    Moles(Range),
}

/// What a material brings into a bath.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Resolved {
    /// Components with their amounts in moles; each stands for one input, whose range is its own.
    pub components: Vec<(Component, Range)>,
    /// Grams of water that it brings beside that of crystallisation: of juices and solutions.
    pub water: f64,
    /// What is in it that the model does not know, with its grams.
    pub left_out: Vec<(String, Range)>,
}

/// Takes a material apart into components: a pure substance by its formula and purity, a mixture or plant by its contents,
/// each with what of it passes into hot water.
///
/// A material that says nothing of its composition is refused; so is a volume of one that has no density.
pub fn resolve(pantry: &Pantry, material: &Material, measure: Measure) -> Result<Resolved, NotKnown> {
    let mut resolved = Resolved::default();
    take(pantry, material, measure, 0, &mut resolved)?;
    Ok(resolved)
}

fn take(
    pantry: &Pantry,
    material: &Material,
    measure: Measure,
    depth: u32,
    resolved: &mut Resolved,
) -> Result<(), NotKnown> {
    let unknown = || NotKnown::Composition {
        name: material.name.clone(),
    };
    if depth > DEEPEST {
        return Err(unknown());
    }
    let density = material.density.as_ref().map(Figure::range);
    if let Some(formula) = &material.formula {
        let component = Component::of_material(material)?;
        let moles = match measure {
            Measure::Moles(moles) => moles,
            Measure::Grams(grams) => pure(material, grams).scale(1.0 / formula.molar_mass()),
            Measure::Millilitres(millilitres) => {
                let grams = millilitres * density.ok_or_else(unknown)?;
                pure(material, grams).scale(1.0 / formula.molar_mass())
            }
        };
        resolved.components.push((component, moles));
        return Ok(());
    }
    if material.contains.is_empty() && !material.is(Property::Water) {
        return Err(unknown());
    }
    let grams = match measure {
        Measure::Moles(_) => return Err(unknown()),
        Measure::Grams(grams) => Some(grams),
        Measure::Millilitres(millilitres) => density.map(|density| millilitres * density),
    };
    let millilitres = match measure {
        Measure::Millilitres(millilitres) => Some(millilitres),
        _ => grams.and_then(|grams| grams.checked_div(density?)),
    };
    let mut solids = 0.0;
    let mut solutes = Vec::new();
    for share in &material.contains {
        let Some(held) = pantry.get(&share.material) else {
            return Err(unknown());
        };
        let amount = share.amount.range();
        let mut part = match share.basis {
            Basis::GramsPerLitre => (amount * millilitres.ok_or_else(unknown)?).scale(1e-3),
            Basis::MassFraction => amount * grams.ok_or_else(unknown)?,
        };
        solids += part.best;
        if let Some(formula) = &held.formula {
            let moles = part.best / formula.molar_mass();
            solutes.push((formula.clone(), AmountOfSubstance::from_moles(moles)));
        }
        if let Some(extracted) = &share.extracted {
            part = part * extracted.range();
        }
        match take(pantry, held, Measure::Grams(part), depth + 1, resolved) {
            Ok(()) => {}
            Err(NotKnown::Unmodelled { name } | NotKnown::Composition { name }) => {
                resolved.left_out.push((name, part));
            }
            Err(error) => return Err(error),
        }
    }
    // Of a liquid the rest is water; so is tap water, whose salts nobody knows.
    if (density.is_some() || material.is(Property::Water))
        && let Some(grams) = grams
    {
        resolved.water += (grams.best - solids).max(0.0);
    } else if grams.is_none()
        && let Some(millilitres) = millilitres
    {
        // Without a density, the water for which the volume leaves room.
        let room = water_for_volume(
            Volume::from_litres(millilitres.best * 1e-3),
            Temperature::from_celsius(20.0),
            &solutes,
        );
        resolved.water += room.map_or(0.0, |room| room.to_add.grams().max(0.0));
    }
    Ok(())
}

/// The part of the mass that is what the formula says.
fn pure(material: &Material, grams: Range) -> Range {
    match &material.purity {
        Some(purity) => grams * purity.range(),
        None => grams,
    }
}

impl Resolved {
    /// All water it brings, that of crystallisation included, in grams.
    pub fn all_water(&self) -> f64 {
        let crystals = self.components.iter();
        let crystals = crystals.map(|(component, moles)| component.crystal_water().grams() * moles.best);
        self.water + crystals.sum::<f64>()
    }
}
