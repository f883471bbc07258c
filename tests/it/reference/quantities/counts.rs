//! Sheets, electrons and gas.

use trayside::chem::{
    Bath, acid_equivalents, electrons, family_of, ideal_gas_volume, moles_of, sheets_until, silver_electrons,
};
use trayside::units::scalar::{AmountOfSubstance, Area, Mass, MassPerArea, Volume};

use super::super::words::{numbers, with_unit};
use super::substance::{behind, weighed};
use super::{Found, Statement, moles_in_unit};

pub(super) fn sheets(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["sheets"]) || !statement.has(&["limit", "stop", "carry"]) {
        return None;
    }
    let volume = with_unit(statement.text, &["L", "l", "litre", "litres"])
        .map(Volume::from_litres)
        .filter(|_| !statement.has(&["ml,"]) || statement.has(&["v=1 l", "v = 1 l"]));
    let mut millilitres = numbers(statement.text).into_iter().filter(|(_, rest)| {
        let rest = rest.trim_start().to_lowercase();
        rest.starts_with("ml")
    });
    let first = millilitres
        .next()
        .map(|(value, _)| Volume::from_millilitres(value));
    let second = millilitres
        .next()
        .map(|(value, _)| Volume::from_millilitres(value));
    let (volume, each) = match (volume, first, second) {
        (_, Some(a), Some(b)) => (a.max(b), a.min(b)),
        (Some(volume), Some(each), None) => (volume, each),
        _ => return Some(Err("no volume and carry-over".to_owned())),
    };
    let ratio = behind(statement.text, &["ratio", "v=", "v ="]).and_then(|rest| {
        // `v=` may stand for the volume of the stop as well: the ratio is what has no unit but litres per litre.
        numbers(rest)
            .into_iter()
            .find(|(_, after)| !after.trim_start().to_lowercase().starts_with("ml"))
            .map(|n| n.0)
    });
    let Some(ratio) = ratio else {
        return Some(Err("no limit ratio".to_owned()));
    };
    let count = sheets_until(ratio, volume, each).ok_or_else(|| "the volumes make no sense".to_owned());
    Some(count.map(f64::from))
}

pub(super) fn silver(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["silver"]) || !statement.has(&["electron", "e-"]) {
        return None;
    }
    let silver = with_unit(statement.text, &["g/m2", "g/m²", "g/m^2"])?;
    let area = with_unit(statement.text, &["m2", "m²", "m^2"]).map(Area::from_square_metres);
    let area = area.or_else(|| with_unit(statement.text, &["cm2", "cm²"]).map(Area::from_square_centimetres));
    let Some(area) = area else {
        return Some(Err("no area".to_owned()));
    };
    let head = statement.text.split("g/m").next().unwrap_or_default();
    let parts: Vec<(f64, &str)> = numbers(head);
    let part = match parts.as_slice() {
        [(value, rest), _, ..] if rest.trim_start().starts_with('%') => value / 100.0,
        [(value, _), _, ..] => *value,
        _ if statement.has(&["half"]) => 0.5,
        _ => 1.0,
    };
    let amount = silver_electrons(MassPerArea::from_grams_per_square_metre(silver), area, part);
    Some(Ok(moles_in_unit(statement, amount)))
}

pub(super) fn agent_electrons(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["electron", "e-"]) || statement.has(&["silver"]) {
        return None;
    }
    let weighed = weighed(statement.text, &[])?;
    Some(weighed.and_then(|(component, mass)| {
        let moles = moles_of(&component, mass).ok_or("it has no molar mass")?;
        let bath = Bath::new(statement.temperature(), Mass::from_kilograms(1.0)).add(&component, moles);
        Ok(moles_in_unit(statement, electrons(&bath)))
    }))
}

pub(super) fn gas(statement: &Statement<'_>) -> Option<Found> {
    let volume = statement.has(&["volume"]) && statement.has(&["co2", "carbon dioxide", "gas"]);
    let litres = statement.asks(&["ml", "l", "litre"]) && statement.has(&["co2", "carbon dioxide"]);
    if !(volume || litres) {
        return None;
    }
    let unit = |amount: f64| {
        let volume = ideal_gas_volume(AmountOfSubstance::from_moles(amount), statement.temperature());
        if statement.asks(&["ml"]) {
            volume.millilitres()
        } else {
            volume.litres()
        }
    };
    if statement.has(&["molar volume", "one mole", "per mole", "per mol"]) {
        return Some(Ok(unit(1.0)));
    }
    for (names, factor) in [(["mmol", "mmol,"], 1e-3), (["mol", "mol,"], 1.0)] {
        if let Some(amount) = with_unit(statement.text, &names) {
            return Some(Ok(unit(amount * factor)));
        }
    }
    let text = statement
        .text
        .replace(" is ", " with ")
        .replace(" and ", " with ");
    Some(weighed(&text, &["acid"])?.and_then(|(component, mass)| {
        let moles = moles_of(&component, mass).ok_or("it has no molar mass")?.moles();
        let stated = numbers(statement.text)
            .into_iter()
            .find(|(_, rest)| rest.trim_start().starts_with("eq"));
        let own = acid_equivalents(&component);
        let carbon = family_of(&component)
            .filter(|(family, _)| *family == "carbonic")
            .map(|(_, count)| count);
        let each = match (carbon, stated) {
            (Some(count), _) if statement.has(&["bak"]) && family_of(&component).is_some() => 0.5 * count,
            (Some(count), _) => count,
            // Each acid equivalent frees one from hydrogen carbonate, and half of one from carbonate.
            (None, Some((equivalents, _))) => equivalents,
            (None, None) => own,
        };
        let halved = carbon.is_none()
            && statement.has(&[" carbonate"])
            && !statement.has(&["hydrogen carbonate", "bicarb"]);
        Ok(unit(moles * if halved { 0.5 * each } else { each }))
    }))
}
