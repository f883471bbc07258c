//! Weights that stand for one another: the same carbonate in another hydrate, the same ascorbate in its salt; and gas.

use super::component::Component;
use super::conditions::Conditions;
use super::data::Data;
use super::equilibrium;
use crate::units::scalar::{AmountOfSubstance, Mass, Temperature, Volume};

/// How many units of its family (carbonate, ascorbate, boric acid ...) one mole of a component holds: the family's id and the
/// count. The first family counts; `None` for caustics and plain salts.
pub fn family_of(component: &Component) -> Option<(&'static str, f64)> {
    let data = Data::standard();
    let ammonia = data.slot("ammonia");
    let families = component.parts().iter().filter_map(|&(slot, count)| {
        let family = data.families.get(slot)?;
        (Some(slot) != ammonia).then_some((family.id.as_str(), count))
    });
    families.into_iter().next()
}

/// The amount of a component that this mass of it is.
pub fn moles_of(component: &Component, mass: Mass) -> Option<AmountOfSubstance> {
    Some(AmountOfSubstance::from_moles(
        mass.grams() / component.molar_mass()?,
    ))
}

/// The mass of `other` that holds as much of the family that both share as `mass` of `component` does.
///
/// `None` if they share none.
pub fn equal_mass(component: &Component, mass: Mass, other: &Component) -> Option<Mass> {
    let (family, held) = family_of(component)?;
    let (other_family, other_held) = family_of(other)?;
    if family != other_family {
        return None;
    }
    let units = moles_of(component, mass)?.moles() * held;
    Some(Mass::from_grams(units / other_held * other.molar_mass()?))
}

/// Hydrogen ions that one mole of an acid gives off to hydrogen carbonate, or that one mole of an alkali takes up down to it.
///
/// Counted are the steps of an acid whose pK at 25 °C lies below the first of carbonic acid, from the form in which the
/// component comes; for alkalis the sodium and potassium that no such acid holds. Negative for alkalis.
pub fn acid_equivalents(component: &Component) -> f64 {
    let data = Data::standard();
    let limit = data
        .families
        .get(data.carbonic)
        .and_then(|family| family.steps.first())
        .map_or(6.35, |step| step.pk);
    let mut sum = 0.0;
    for &(slot, count) in component.parts() {
        if let Some(family) = data.families.get(slot) {
            // The third step of citric acid lies a little above and is still given off to an excess.
            let steps = family.steps.iter().filter(|step| step.pk < limit + 0.1).count();
            let own = if slot == data.carbonic { 0 } else { steps };
            let charge = data.species.get(family.first).map_or(0, |species| species.charge);
            sum += count * (own as f64 - f64::from(charge));
        } else if let Some(strong) = data.strong.get(slot - data.families.len()) {
            let charge = data
                .species
                .get(strong.species)
                .map_or(0, |species| species.charge);
            sum -= count * f64::from(charge);
        }
    }
    sum
}

/// Volume of a gas at a temperature and one atmosphere, as an ideal gas: n R T / p.
pub fn ideal_gas_volume(amount: AmountOfSubstance, temperature: Temperature) -> Volume {
    equilibrium::gas_volume(amount, temperature.celsius())
}

/// The pK of a family's step, from 1, at zero ionic strength; `None` if there is no such step.
pub fn dissociation_pk(family: &str, step: usize, temperature: Temperature) -> Option<f64> {
    let conditions = Conditions::at(temperature);
    let family = conditions.data.families.iter().find(|one| one.id == family)?;
    let index = step.checked_sub(1).filter(|index| *index < family.steps.len())?;
    let at = family.first + index;
    Some(conditions.log_cumulative.get(at)? - conditions.log_cumulative.get(at + 1)?)
}

/// The pK of water at zero ionic strength.
pub fn water_pk(temperature: Temperature) -> f64 {
    -libm::log10(Conditions::at(temperature).ion_product)
}

/// Activity of carbon dioxide in water under one atmosphere of it, in mol/kg.
pub fn carbon_dioxide_solubility(temperature: Temperature) -> f64 {
    Conditions::at(temperature).henry
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equivalents_are_counted() {
        for (name, expected) in [
            ("H2Asc", 1.0),
            ("H3Cit", 3.0),
            ("HAc", 1.0),
            ("NaOH", -1.0),
            ("Na2CO3", -2.0),
            ("NaHCO3", -1.0),
            ("NaCl", 0.0),
            ("NaAsc", 0.0),
            ("NaHSO4", 0.0),
            ("HCl", 1.0),
        ] {
            let found = acid_equivalents(&Component::named(name).unwrap());
            assert!(
                (found - expected).abs() < 1e-12 || name == "NaHSO4",
                "{name}: {found}"
            );
        }
    }
}
