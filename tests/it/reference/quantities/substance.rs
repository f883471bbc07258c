//! Naming a substance, and weighing it.

use trayside::chem::{Component, formula_of_name};
use trayside::units::scalar::Mass;

use super::super::words::numbers;
use super::Statement;

/// A substance by name; `also` are words to complete a name like `decahydrate`.
pub(super) fn substance(name: &str, also: &[&str]) -> Result<Component, String> {
    let name = name.trim().trim_matches([',', '.', ':', ';']).trim();
    let name = ["of ", "the ", "a ", "pure ", "solid ", "dry "]
        .iter()
        .fold(name, |name, word| name.strip_prefix(word).unwrap_or(name));
    // An explicit formula or name first, by which `borax` weighs what its crystals weigh.
    let formula = formula_of_name(name);
    if let Some(found) = formula.and_then(|formula| Component::of_formula(&formula).ok()) {
        return Ok(found);
    }
    let direct = Component::named(name).map_err(|error| error.to_string());
    if direct.is_ok() {
        return direct;
    }
    for base in also {
        for whole in [
            format!("{base} {name}"),
            format!("sodium {name} {base}"),
            format!("sodium {base} {name}"),
            format!("sodium {name}"),
        ] {
            let formula = formula_of_name(&whole);
            if let Some(found) = formula.and_then(|formula| Component::of_formula(&formula).ok()) {
                return Ok(found);
            }
        }
    }
    let formula = formula_of_name(&format!("sodium {name}"));
    let salt = formula.and_then(|formula| Component::of_formula(&formula).ok());
    salt.ok_or_else(|| direct.err().unwrap_or_default())
}

/// The text behind the first of some words that occurs.
pub(super) fn behind<'a>(text: &'a str, words: &[&str]) -> Option<&'a str> {
    let lower = text.to_lowercase();
    words.iter().find_map(|word| {
        let at = lower.find(word)?;
        text.get(at + word.len()..)
    })
}

/// A name up to a bracket, comma or preposition.
pub(super) fn name_end(text: &str) -> &str {
    let ends = [
        " (", ", ", " at ", " in ", " from ", " per ", " to ", " when ", " with ", " by ", " meets ",
        " for ", ";",
    ];
    let end = ends
        .iter()
        .filter_map(|end| text.find(end))
        .min()
        .unwrap_or(text.len());
    text[..end].trim()
}

/// `N g of X`: the mass and what it is of.
pub(super) fn weighed(text: &str, also: &[&str]) -> Option<Result<(Component, Mass), String>> {
    for (value, rest) in numbers(text) {
        let rest = rest.trim_start();
        let units = [
            ("kg ", 1000.0),
            ("mg ", 1e-3),
            ("g ", 1.0),
            ("grams ", 1.0),
            ("gram ", 1.0),
        ];
        let Some((name, factor)) = units
            .iter()
            .find_map(|(unit, factor)| Some((rest.strip_prefix(unit)?, factor)))
        else {
            continue;
        };
        let name = name.trim_start().trim_start_matches("of ");
        let component = substance(name_end(name), also);
        return Some(component.map(|component| (component, Mass::from_grams(value * factor))));
    }
    None
}

/// What the statement says the two sides are equal in, and the salts it names: to complete `decahydrate` or `anhydrous`.
pub(super) fn context(statement: &Statement<'_>) -> Vec<String> {
    let anions = [
        "carbonate",
        "thiosulfate",
        "thiosulphate",
        "sulfite",
        "sulphite",
        "phosphate",
        "sulfate",
        "sulphate",
        "acetate",
        "ascorbate",
        "hypo",
    ];
    let mut found = Vec::new();
    for word in [
        "borax",
        "citric acid",
        "citrate",
        "oxalic acid",
        "gallic acid",
        "metaborate",
    ] {
        if statement.lower.contains(word) {
            found.push(word.to_owned());
        }
    }
    for anion in anions {
        if let Some(at) = statement.lower.find(anion) {
            let potassium = statement.lower[..at].trim_end().ends_with("potassium");
            found.push(format!(
                "{} {anion}",
                if potassium { "potassium" } else { "sodium" }
            ));
        }
    }
    found
}
