//! Rows of the chemistry tables: a composition, a temperature, a gas mode and a quantity of the equilibrium.

use trayside::chem::{Equilibrium, buffer_capacity, solve};

use super::Outcome;
use super::csv::Row;
use super::words;

/// Checks one row; its topic is the quantity.
pub(crate) fn check(row: &Row<'_>) -> (String, Outcome) {
    let quantity = row.get(&["quantity"]).unwrap_or_default();
    let topic = format!("chemistry {}", topic(quantity));
    let outcome = match compare(row, quantity) {
        Ok(outcome) => outcome,
        Err(why) => Outcome::NotUnderstood(why),
    };
    (topic, outcome)
}

/// The quantity without the species that it may name.
fn topic(quantity: &str) -> String {
    let lower = quantity.to_lowercase();
    for (word, topic) in [
        ("co2_released", "CO2 released"),
        ("co2 released", "CO2 released"),
        ("gas", "CO2 released"),
        ("buffer", "buffer capacity"),
        ("share", "shares"),
        ("fraction", "shares"),
        ("alpha", "shares"),
        ("gamma", "activity coefficients"),
        ("pco2", "pCO2"),
        ("ionic", "ionic strength"),
    ] {
        if lower.contains(word) {
            return topic.to_owned();
        }
    }
    if quantity == "I" {
        "ionic strength".to_owned()
    } else {
        quantity.to_owned()
    }
}

fn compare(row: &Row<'_>, quantity: &str) -> Result<Outcome, String> {
    let expected = row.number(&["reference_value", "value", "expected"]);
    let expected = expected.ok_or("no reference value")?;
    let tolerance = tolerance(row, expected).ok_or("no tolerance")?;
    let celsius = row.get(&["temp"]).unwrap_or_default();
    let celsius = words::number(celsius)
        .or_else(|| words::celsius(celsius))
        .ok_or("no temperature")?;
    let terms = words::composition(row.get(&["composition"]).unwrap_or_default())?;
    let gas = words::gas_mode(row.get(&["mode", "gas"]).unwrap_or_default())?;
    let bath = words::bath(&terms, celsius);
    let equilibrium = solve(&bath, gas).map_err(|error| error.to_string())?;
    let found = value(&equilibrium, quantity).ok_or_else(|| format!("no quantity `{quantity}`"))?;
    Ok(Outcome::of(found, expected, tolerance))
}

/// The tolerance, absolute or in per cent of the value.
pub(crate) fn tolerance(row: &Row<'_>, expected: f64) -> Option<f64> {
    let text = row.get(&["tolerance", "tol"])?;
    let text = text.trim_start_matches(['±', '+', '-', '/']).trim();
    if let Some(part) = text.strip_prefix("rel") {
        return Some(words::number(part)? * expected.abs());
    }
    let text = text.trim_start_matches("abs");
    match text.strip_suffix('%') {
        Some(percent) => Some(words::number(percent)? / 100.0 * expected.abs()),
        None => words::number(text),
    }
}

fn value(equilibrium: &Equilibrium, quantity: &str) -> Option<f64> {
    let plain = quantity.trim().replace(['_', '(', ')'], " ");
    let lower = plain.to_lowercase();
    let has = |word: &str| lower.contains(word);
    let millilitres = has("ml");
    if lower == "ph" {
        return Some(equilibrium.ph());
    }
    if has("sit") && has("ph") {
        return equilibrium.sit_ph().ok();
    }
    if quantity == "I" || has("ionic strength") || lower.starts_with("i mol") {
        return Some(equilibrium.ionic_strength().moles_per_kilogram());
    }
    if has("co2 released") || has("released co2") || (has("gas") && has("vol")) || has("gas ml") {
        let mol = equilibrium.co2_released().moles_per_kilogram();
        return Some(match () {
            () if millilitres || has("vol") && !has(" l ") => equilibrium.gas_volume().millilitres(),
            () if has("mmol") => 1000.0 * mol,
            () if has(" l ") || has("litre") => equilibrium.gas_volume().litres(),
            () => mol,
        });
    }
    if has("log") && has("pco2") {
        return Some(libm::log10(equilibrium.pco2().atmospheres()));
    }
    if has("pco2") {
        return Some(equilibrium.pco2().atmospheres());
    }
    if has("buffer") {
        let capacity = buffer_capacity(equilibrium.bath(), equilibrium.gas()).ok()?;
        return Some(capacity.moles_per_kilogram());
    }
    let original = quantity.replace('_', " ");
    let tokens: Vec<&str> = original.split_whitespace().collect();
    let species = || tokens.iter().rev().flat_map(|token| words::spellings(token));
    if has("share") || has("fraction") || has("alpha") {
        let shares: Vec<f64> = tokens
            .iter()
            .filter_map(|token| words::share(equilibrium, token))
            .collect();
        return (!shares.is_empty()).then(|| shares.iter().sum());
    }
    if has("gamma") || has("activity coefficient") {
        return species().find_map(|name| equilibrium.activity_coefficient(&name));
    }
    if has("molality") || lower.starts_with("m ") {
        return species()
            .find_map(|name| equilibrium.molality(&name))
            .map(trayside::units::scalar::Molality::moles_per_kilogram);
    }
    None
}
