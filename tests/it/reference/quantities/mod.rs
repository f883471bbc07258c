//! Rows of the quantities tables: a statement in words, its value and unit.
//!
//! A statement is told by its words, not by its place, and its numbers by their units; what it names is looked up by the
//! library. Each reader gives `None` where the statement is of another kind.

mod baking;
mod baths;
mod constants;
mod counts;
mod substance;
mod weights;
mod wordings;

use trayside::units::scalar::{AmountOfSubstance, Mass, Temperature};

use super::Outcome;
use super::chemistry::tolerance;
use super::csv::Row;
use super::words;

/// Checks one row; its topic is the kind of statement.
pub(crate) fn check(row: &Row<'_>) -> (String, Outcome) {
    let statement = row.get(&["description"]).unwrap_or_default();
    let unit = row.get(&["unit"]).unwrap_or_default();
    let Some((topic, found)) = read(statement, unit) else {
        let why = format!("no kind of statement: {statement}");
        return ("quantities".to_owned(), Outcome::NotUnderstood(why));
    };
    let outcome = found.and_then(|found| {
        let expected = row
            .number(&["reference_value", "value", "expected"])
            .ok_or("no reference value")?;
        let tolerance = tolerance(row, expected).ok_or("no tolerance")?;
        Ok(Outcome::of(found, expected, tolerance))
    });
    (
        format!("quantities {topic}"),
        outcome.unwrap_or_else(Outcome::NotUnderstood),
    )
}

type Found = Result<f64, String>;
type Reader = fn(&Statement<'_>) -> Option<Found>;

/// A statement in its own and in lower case, with the unit asked for.
struct Statement<'a> {
    text: &'a str,
    lower: String,
    unit: String,
}

impl Statement<'_> {
    fn has(&self, words: &[&str]) -> bool {
        words.iter().any(|word| self.lower.contains(word))
    }

    fn asks(&self, units: &[&str]) -> bool {
        units.iter().any(|unit| self.unit.starts_with(unit))
    }

    fn celsius(&self) -> f64 {
        words::celsius(self.text).unwrap_or(20.0)
    }

    fn temperature(&self) -> Temperature {
        Temperature::from_celsius(self.celsius())
    }
}

fn read(text: &str, unit: &str) -> Option<(&'static str, Found)> {
    let statement = Statement {
        text,
        lower: text.to_lowercase(),
        unit: unit.to_lowercase(),
    };
    let readers: [(&str, Reader); 17] = [
        ("molar mass", weights::molar_mass),
        ("water content", weights::water_content),
        ("sheets", counts::sheets),
        ("silver electrons", counts::silver),
        ("electrons of agents", counts::agent_electrons),
        ("gas volume", counts::gas),
        ("baking", baking::baking),
        ("shares", baths::fraction),
        ("buffer capacity", baths::capacity),
        ("stop capacity", baths::stop),
        ("constants", constants::constant),
        ("amount to reach a pH", baths::reach),
        ("neutralising", weights::neutral),
        ("equal masses", weights::equal),
        ("moles", weights::moles),
        ("ionic strength", baths::strength),
        ("pH", baths::ph),
    ];
    let mut read = readers.into_iter();
    read.find_map(|(topic, reader)| Some((topic, reader(&statement)?)))
}

fn grams_in_unit(statement: &Statement<'_>, mass: Mass) -> f64 {
    match statement.unit.as_str() {
        "kg" => mass.kilograms(),
        "mg" => mass.milligrams(),
        _ => mass.grams(),
    }
}

fn moles_in_unit(statement: &Statement<'_>, amount: AmountOfSubstance) -> f64 {
    if statement.asks(&["mmol", "meq", "millimol"]) {
        amount.millimoles()
    } else {
        amount.moles()
    }
}

fn per_cent(statement: &Statement<'_>, part: f64) -> f64 {
    if statement.unit.contains('%') || statement.has(&["per cent", "percent"]) {
        100.0 * part
    } else {
        part
    }
}
