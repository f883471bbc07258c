//! Constants at a temperature.

use trayside::chem::{
    carbon_dioxide_solubility, debye_hueckel_a, dissociation_pk, family_of, water_density, water_pk,
};

use super::substance::{behind, name_end, substance};
use super::{Found, Statement};

pub(super) fn constant(statement: &Statement<'_>) -> Option<Found> {
    let at = statement.temperature();
    if statement.has(&["debye"]) {
        return Some(Ok(debye_hueckel_a(at)));
    }
    if statement.has(&["density of water"]) {
        let density = water_density(at);
        return Some(Ok(if statement.asks(&["kg/m"]) {
            1000.0 * density
        } else {
            density
        }));
    }
    if statement.has(&["pkw", "pk of water", "ion product of water"]) {
        return Some(Ok(water_pk(at)));
    }
    if statement.has(&[
        "co2 solubility",
        "solubility of co2",
        "solubility of carbon dioxide",
        "henry",
    ]) {
        return Some(Ok(carbon_dioxide_solubility(at)));
    }
    if !statement.has(&["pk"]) {
        return None;
    }
    let behind = behind(statement.text, &["pka", "pk"])?;
    let step = behind.chars().next().and_then(|c| c.to_digit(10)).unwrap_or(1) as usize;
    let name = behind.split_once(" of ").map_or(behind, |(_, name)| name);
    let component = match substance(name_end(name), &["acid"]) {
        Ok(component) => component,
        Err(error) => return Some(Err(error)),
    };
    let family = family_of(&component).map(|(family, _)| family);
    Some(
        family
            .and_then(|family| dissociation_pk(family, step, at))
            .ok_or_else(|| "no such step".to_owned()),
    )
}
