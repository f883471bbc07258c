//! A dose of a recipe as moles of components: strengths, tablets, plants, formulas.

use std::borrow::Cow;

use crate::chem::{Component, Measure, NotKnown, Resolved, formula_of_name, resolve, water_for_volume};
use crate::facts::dose::{Dose, Known};
use crate::facts::shelf::is_liquid;
use crate::pantry::{
    Basis, Figure, Form, Formula, Lookup, Material, NOTEBOOK_SOURCE, Pantry, PercentBasis, Property, Share,
    Status, Strength,
};
use crate::units::scalar::{AmountOfSubstance, Temperature, Volume};
use crate::units::{Dimension, Range};

use super::composition::ROOM;

/// The finished volume and the water that amounts given per litre or per kilogram refer to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Basin {
    /// Litres of finished bath.
    pub litres: Option<f64>,
    /// Kilograms of water.
    pub kilograms: f64,
}

/// Why a dose cannot be taken apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Refused {
    /// Its form was not said; these are the forms.
    Form(Vec<String>),
    /// In words.
    Because(String),
}

/// What a dose brings into the bath.
pub(super) fn taken_apart(pantry: &Pantry, dose: &Dose, basin: Basin) -> Result<Resolved, Refused> {
    let name = &dose.name.value;
    match &dose.known {
        Known::Formula(formula) => pure(dose, Component::of_formula(formula), Some(formula), basin),
        Known::Material { material, strength } => of_material(pantry, dose, material, *strength, basin),
        Known::NeedsForm { forms, .. } => Err(Refused::Form(forms.clone())),
        Known::Ambiguous { names, .. } => Err(Refused::Because(format!(
            "`{name}` may be any of these: {}",
            names.join(", ")
        ))),
        Known::Unknown { malformed, .. } => {
            let formula = formula_of_name(name);
            match (Component::named(name), malformed) {
                (Ok(component), _) => pure(dose, Ok(component), formula.as_ref(), basin),
                (Err(_), Some(why)) => Err(Refused::Because(why.to_string())),
                (Err(_), None) => Err(Refused::Because(format!("what `{name}` is, is not known"))),
            }
        }
    }
}

/// A substance given by its formula or chemical name.
fn pure(
    dose: &Dose,
    component: Result<Component, NotKnown>,
    formula: Option<&Formula>,
    basin: Basin,
) -> Result<Resolved, Refused> {
    let component = component.map_err(|error| Refused::Because(error.to_string()))?;
    let molar_mass = formula
        .map(Formula::molar_mass)
        .or(component.molar_mass())
        .ok_or_else(|| cannot_weigh(dose))?;
    let moles = match measure(dose, None, basin)? {
        Measure::Moles(moles) => moles,
        Measure::Grams(grams) => grams.scale(1.0 / molar_mass),
        Measure::Millilitres(_) => return Err(cannot_weigh(dose)),
    };
    Ok(Resolved {
        components: vec![(component, moles)],
        ..Resolved::default()
    })
}

fn of_material(
    pantry: &Pantry,
    dose: &Dose,
    material: &Material,
    strength: Option<Strength>,
    basin: Basin,
) -> Result<Resolved, Refused> {
    if strength == Some(Strength::PURE)
        && let Some(formula) = &material.formula
    {
        // Written as a formula, and so without what a packet is adulterated with.
        return pure(dose, Component::of_material(material), Some(formula), basin);
    }
    if dose.known.solution().is_some()
        && let Some(resolved) = solid_in_water(dose, material, basin)?
    {
        return Ok(resolved);
    }
    let measured = measure(dose, Some(material), basin)?;
    if let Some(why) = not_told(dose, material, strength, measured) {
        return Err(Refused::Because(why));
    }
    let strength = strength.filter(|strength| *strength != Strength::PURE);
    if let (Some(strength), Some(_)) = (strength, &material.formula) {
        return solution_of(dose, material, strength, measured);
    }
    let (material, measured) = tablets(dose, material, measured);
    let material = match strength {
        Some(strength) => with_strength(&material, strength).map_or(material, Cow::Owned),
        None => material,
    };
    let material = with_contents(pantry, &material).map_or(material, Cow::Owned);
    match resolve(pantry, &material, measured) {
        Ok(mut resolved) => {
            resolved.components.extend(acid_of_plant(&material, measured));
            Ok(resolved)
        }
        // What has no charge and holds no acid or alkali changes nothing that is computed here.
        Err(NotKnown::Unmodelled { .. } | NotKnown::Composition { .. }) if is_idle(dose, &material) => {
            Ok(Resolved {
                left_out: vec![(dose.name.value.clone(), Range::ZERO)],
                ..Resolved::default()
            })
        }
        Err(error) => Err(Refused::Because(error.to_string())),
    }
}

/// The material with its contents by id, and, of a plant of the notebook's own that is steeped, with what lemon balm gives of
/// them to hot water (Carnat and others 1998, widened). A juice is poured with all that is in it, and of our own materials it
/// is known how they come. None where nothing needs to be changed.
fn with_contents(pantry: &Pantry, material: &Material) -> Option<Material> {
    let is_steeped = material.is(Property::Plant) && material.form != Some(Form::Liquid);
    let steeped =
        |share: &Share| is_steeped && share.extracted.is_none() && share.amount.source() == NOTEBOOK_SOURCE;
    let known = |share: &Share| pantry.get(&share.material).is_some();
    if material
        .contains
        .iter()
        .all(|share| known(share) && !steeped(share))
    {
        return None;
    }
    let mut owned = material.clone();
    for share in &mut owned.contains {
        if !known(share) {
            let id = match pantry.look_up(&share.material) {
                Lookup::Found { material, .. } => Some(material.id.clone()),
                Lookup::Formula { formula, .. } => {
                    let alike = pantry.with_formula(&formula);
                    alike.first().map(|material| material.id.clone())
                }
                _ => None,
            };
            share.material = id.unwrap_or_else(|| share.material.clone());
        }
        if steeped(share) {
            share.extracted = Figure::new(0.6, 0.8, 0.95, Status::Derived, "carnat-1998");
        }
    }
    Some(owned)
}

/// The acids that a plant brings besides what it is taken for: nothing to 20 mmol of acid hydrogen in a litre of strong
/// brew, that is from 60 g of dried or 240 g of fresh plant (from memory, unverified).
fn acid_of_plant(material: &Material, measured: Measure) -> Option<(Component, Range)> {
    let Measure::Grams(grams) = measured else {
        return None;
    };
    if !material.is(Property::Plant) || material.form == Some(Form::Liquid) {
        return None;
    }
    let strong_brew = if material.form == Some(Form::Fresh) {
        240.0
    } else {
        60.0
    };
    let most = 0.02 * grams.high / strong_brew;
    let acid = Component::named("HCl").ok()?;
    Some((acid, Range::new(0.0, 0.0, most)))
}

/// Why nobody can tell what a material brings, where no label was copied: what is usual in shops is no figure to compute
/// with. What grows, as a juice, is computed with the range that is known of it.
fn not_told(
    dose: &Dose,
    material: &Material,
    strength: Option<Strength>,
    measured: Measure,
) -> Option<String> {
    let name = &dose.name.value;
    if material.is(Property::Hypochlorite) && !matches!(measured, Measure::Moles(_)) {
        return Some(format!(
            "what the hypochlorite of `{name}` becomes is not computed"
        ));
    }
    let said = material
        .contains
        .iter()
        .any(|share| share.amount.source() == NOTEBOOK_SOURCE);
    if said || is_idle(dose, material) {
        return None;
    }
    if material.is(Property::Effervescent) || material.is(Property::Leavening) {
        return Some(format!("no label says how much acid and soda `{name}` brings"));
    }
    // Moles are of the substance itself, however dilute it comes.
    let open = material.needs_strength && strength.is_none() && !matches!(measured, Measure::Moles(_));
    open.then(|| format!("how strong `{name}` is, is not said: copy the per cent from its label"))
}

/// Whether what is not known of a material may be left out: plants, sugar, spirit and the like.
fn is_idle(dose: &Dose, material: &Material) -> bool {
    let acts = [
        Property::Alkali,
        Property::Caustic,
        Property::Acid,
        Property::Ammonia,
        Property::Ammonium,
        Property::Effervescent,
        Property::Leavening,
        Property::Buffer,
        Property::Hardener,
        Property::Sulfide,
        Property::Hypochlorite,
    ];
    let idle = [
        Property::Plant,
        Property::Sugar,
        Property::Alcohol,
        Property::Food,
        Property::Water,
    ];
    !dose.properties().contains_any(&acts) && idle.iter().any(|property| material.is(*property))
}

/// How much was taken, in what it is counted.
fn measure(dose: &Dose, material: Option<&Material>, basin: Basin) -> Result<Measure, Refused> {
    let amount = &dose.amount;
    let range = amount.range;
    if range.low < 0.0 {
        return Err(Refused::Because(format!(
            "`{}` is less than nothing",
            dose.name.value
        )));
    }
    let litres = || {
        basin
            .litres
            .ok_or_else(|| Refused::Because("the finished volume is not known".to_owned()))
    };
    Ok(match amount.dimension {
        Dimension::AmountOfSubstance => Measure::Moles(range),
        Dimension::Molality => Measure::Moles(range.scale(basin.kilograms)),
        Dimension::Molarity => Measure::Moles(range.scale(litres()?)),
        Dimension::VolumeFraction => Measure::Millilitres(range.scale(1000.0 * litres()?)),
        Dimension::MassConcentration => Measure::Grams(range.scale(litres()?)),
        Dimension::Volume
            if material.is_some_and(|material| material.density.is_some() || by_litre(material)) =>
        {
            Measure::Millilitres(range.scale(1000.0))
        }
        _ => {
            let litres = Range::exact(basin.litres.unwrap_or(basin.kilograms));
            Measure::Grams(dose.grams(litres).ok_or_else(|| cannot_weigh(dose))?)
        }
    })
}

/// Whether it is poured and told by what a litre of it holds: then nobody needs to know what it weighs.
fn by_litre(material: &Material) -> bool {
    let by_volume = |share: &Share| share.basis == Basis::GramsPerLitre;
    is_liquid(material) && !material.contains.is_empty() && material.contains.iter().all(by_volume)
}

fn cannot_weigh(dose: &Dose) -> Refused {
    let name = &dose.name.value;
    if dose.known.solution().is_some() {
        return Refused::Because(dose.no_density());
    }
    Refused::Because(match dose.amount.dimension {
        Dimension::Volume if dose.known.is_poured() => {
            format!(
                "what a litre of `{name}` holds or weighs is not known: give its `contains` in g/l, or its `density`"
            )
        }
        Dimension::Volume => format!("what a spoon of `{name}` weighs is not known"),
        Dimension::Count => format!("what one of `{name}` weighs is not known: write `6 × 500 mg`"),
        Dimension::AmountOfSubstance | Dimension::Molarity | Dimension::Molality => {
            format!("the formula of `{name}` is not known")
        }
        _ => format!("how much `{name}` weighs is not known"),
    })
}

/// A solid that is poured as a solution of it: so much of it, and the water for which it leaves room. None where the solid
/// is counted in moles, and so without what it is dissolved in.
fn solid_in_water(dose: &Dose, material: &Material, basin: Basin) -> Result<Option<Resolved>, Refused> {
    let litres = basin.litres.unwrap_or(basin.kilograms);
    let poured = match dose.amount.dimension {
        Dimension::Volume => Some(dose.amount.range.best),
        Dimension::VolumeFraction => Some(dose.amount.range.best * litres),
        Dimension::Mass | Dimension::MassConcentration => None,
        _ => return Ok(None),
    };
    let grams = dose
        .grams(Range::exact(litres))
        .filter(|grams| grams.low >= 0.0)
        .ok_or_else(|| cannot_weigh(dose))?;
    let component = Component::of_material(material).map_err(|error| Refused::Because(error.to_string()))?;
    let formula = material.formula.as_ref().ok_or_else(|| cannot_weigh(dose))?;
    // It is made from the packet, and so with what the packet is adulterated with.
    let purity = material.purity.as_ref().map_or(Range::exact(1.0), Figure::range);
    let moles = (grams * purity).scale(1.0 / formula.molar_mass());
    let water = match poured {
        Some(litres) => {
            let solute = (formula.clone(), AmountOfSubstance::from_moles(moles.best));
            water_for_volume(
                Volume::from_litres(litres),
                Temperature::from_celsius(ROOM),
                &[solute],
            )
            .map(|water| water.to_add.grams())
        }
        None => dose.known.solution().and_then(|strength| {
            let whole = grams.best / strength.share().best;
            whole.is_finite().then_some(whole - grams.best)
        }),
    };
    Ok(Some(Resolved {
        components: vec![(component, moles)],
        water: water.unwrap_or(0.0).max(0.0),
        left_out: Vec::new(),
    }))
}

/// A substance in water, such as 25 % acetic acid.
fn solution_of(
    dose: &Dose,
    material: &Material,
    strength: Strength,
    measured: Measure,
) -> Result<Resolved, Refused> {
    let component = Component::of_material(material).map_err(|error| Refused::Because(error.to_string()))?;
    let molar_mass = component.molar_mass().ok_or_else(|| cannot_weigh(dose))?;
    let share = strength.share();
    let (whole, dissolved) = match (measured, strength.basis) {
        (Measure::Moles(moles), _) => (moles.scale(molar_mass), moles.scale(molar_mass)),
        // By mass, or of a solid: the density of the pure liquid says nothing of its solution.
        (Measure::Grams(grams), _) => (grams, grams * share),
        (Measure::Millilitres(millilitres), Some(PercentBasis::ByMass)) => {
            let density = dose.density().ok_or_else(|| cannot_weigh(dose))?;
            let grams = millilitres * density;
            (grams, grams * share)
        }
        (Measure::Millilitres(millilitres), _) => (millilitres, millilitres * share),
    };
    Ok(Resolved {
        components: vec![(component, dissolved.scale(1.0 / molar_mass))],
        water: (whole.best - dissolved.best).max(0.0),
        left_out: Vec::new(),
    })
}

/// A mixture whose first content is as strong as its label says.
fn with_strength(material: &Material, strength: Strength) -> Option<Material> {
    let mut material = material.clone();
    let first = material.contains.first_mut()?;
    let (factor, basis) = match strength.basis {
        Some(PercentBasis::ByMass) => (0.01, Basis::MassFraction),
        // A bare percentage as [`Strength::grams_per_litre`] reads it, and one by volume like it.
        None | Some(PercentBasis::MassByVolume | PercentBasis::ByVolume) => (10.0, Basis::GramsPerLitre),
    };
    let range = Range::between(strength.low * factor, strength.high * factor);
    first.amount = exact(range)?;
    first.basis = basis;
    Some(material)
}

fn exact(range: Range) -> Option<Figure> {
    Figure::new(
        range.low,
        range.best,
        range.high,
        Status::Measured,
        NOTEBOOK_SOURCE,
    )
}

/// Tablets are counted by what their label says is in one, not by what they weigh.
fn tablets<'m>(dose: &Dose, material: &'m Material, measured: Measure) -> (Cow<'m, Material>, Measure) {
    let labelled = dose.amount.each.is_some() || dose.amount.dimension == Dimension::Count;
    let (true, Some(_), Measure::Grams(active)) = (labelled, &material.tablet_share, measured) else {
        return (Cow::Borrowed(material), measured);
    };
    let mut owned = material.clone();
    let Some(first) = owned.contains.first_mut() else {
        return (Cow::Borrowed(material), measured);
    };
    let share = first.amount.best();
    let (Some(figure), true) = (exact(Range::exact(share)), share > 0.0) else {
        return (Cow::Borrowed(material), measured);
    };
    first.amount = figure;
    (Cow::Owned(owned), Measure::Grams(active.scale(1.0 / share)))
}
