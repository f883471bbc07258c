//! Molar masses and weights that stand for one another.

use trayside::chem::{acid_equivalents, equal_mass, moles_of};
use trayside::pantry::{Formula, Pantry};
use trayside::units::scalar::Mass;

use super::super::words::numbers;
use super::substance::{behind, context, name_end, substance, weighed};
use super::{Found, Statement, grams_in_unit, moles_in_unit, per_cent};

pub(super) fn molar_mass(statement: &Statement<'_>) -> Option<Found> {
    let name = behind(
        statement.text,
        &[
            "molar mass of",
            "molar mass:",
            "molecular weight of",
            "molecular mass of",
            "formula weight of",
            "molar mass",
        ],
    )?;
    // What the solver has no constants for has a molar mass all the same.
    let plain = name.trim().trim_end_matches('.');
    let formula = Formula::parse(plain).ok().or_else(|| {
        let material = Pantry::standard().look_up(plain).material()?;
        material.formula.clone()
    });
    let known = substance(name, &[])
        .ok()
        .and_then(|component| component.molar_mass());
    let mass = known.or_else(|| formula.map(|formula| formula.molar_mass()));
    Some(
        mass.ok_or_else(|| format!("no molar mass of {name}"))
            .map(|mass| {
                if statement.asks(&["kg"]) {
                    mass / 1000.0
                } else {
                    mass
                }
            }),
    )
}

pub(super) fn water_content(statement: &Statement<'_>) -> Option<Found> {
    let name = behind(
        statement.text,
        &[
            "water content of",
            "water of crystallisation in",
            "water of crystallization in",
            "crystal water in",
            "crystal water of",
            "mass fraction of water in",
            "water share of",
            "water in",
        ],
    )?;
    Some(substance(name_end(name), &[]).and_then(|component| {
        let whole = component.molar_mass().ok_or("it has no molar mass")?;
        let part = component.crystal_water().grams() / whole;
        Ok(match weighed(statement.text, &[]) {
            Some(Ok((_, mass))) if statement.asks(&["g"]) => mass.grams() * part,
            _ => per_cent(statement, part),
        })
    }))
}

pub(super) fn neutral(statement: &Statement<'_>) -> Option<Found> {
    let words = [
        " to neutralise ",
        " to neutralize ",
        " neutralising ",
        " neutralizing ",
        " neutralises ",
        " neutralizes ",
        " equivalent to ",
    ];
    let at = words
        .iter()
        .find_map(|word| Some((statement.lower.find(word)?, word.len())))?;
    let before = &statement.text[..at.0];
    let (acid, mass) = match weighed(&statement.text[at.0 + at.1 - 1..], &["acid"])? {
        Ok(weighed) => weighed,
        Err(error) => return Some(Err(error)),
    };
    let name = before.rsplit_once(" of ").map_or(before, |(_, name)| name);
    let name = [
        "needed",
        "required",
        "that",
        "which",
        "just",
        "exactly",
        "in acid",
        "in base",
        "in alkali",
    ]
    .iter()
    .fold(name, |name, word| name.trim().trim_end_matches(word))
    .trim();
    let other = match substance(name, &[]) {
        Ok(component) => component,
        Err(error) => return Some(Err(error)),
    };
    let stated = numbers(statement.text)
        .into_iter()
        .find(|(_, rest)| rest.trim_start().starts_with("eq"));
    if let Some(equal) = equal_mass(&acid, mass, &other) {
        return Some(Ok(grams_in_unit(statement, equal)));
    }
    let own = stated.map_or_else(|| acid_equivalents(&acid).abs(), |(equivalents, _)| equivalents);
    let each = acid_equivalents(&other).abs();
    let moles = moles_of(&acid, mass)?.moles() * own / each;
    Some(
        other
            .molar_mass()
            .ok_or_else(|| "it has no molar mass".to_owned())
            .map(|mass| moles * mass),
    )
}

pub(super) fn equal(statement: &Statement<'_>) -> Option<Found> {
    const BETWEEN: [&str; 12] = [
        " equal in ",
        " equal to ",
        " equal ",
        " equals ",
        " that replaces ",
        " replacing ",
        " to replace ",
        " instead of ",
        " with as much ",
        " corresponding to ",
        " matching ",
        " as ",
    ];
    let ratio = statement.has(&["ratio", "factor"]);
    if ratio {
        let rest = behind(
            statement.text,
            &[
                "ratio of ",
                "ratio ",
                "factor from ",
                "factor for ",
                "factor of ",
                "factor ",
            ],
        )?;
        let (one, other, turned) = if let Some((one, other)) = rest.split_once(" to ") {
            (one, other, statement.has(&["factor"]))
        } else {
            let (one, other) = rest.split_once(" for ").or_else(|| rest.split_once('/'))?;
            (one, other, false)
        };
        let (one, other) = (name_end(one), name_end(other));
        let context = context(statement);
        let context: Vec<&str> = context.iter().map(String::as_str).collect();
        return Some(substance(one, &context).and_then(|one| {
            let other = substance(other, &context)?;
            let mass = Mass::from_grams(1.0);
            let equal = if turned {
                equal_mass(&one, mass, &other)
            } else {
                equal_mass(&other, mass, &one)
            };
            equal
                .map(Mass::grams)
                .ok_or_else(|| "they share nothing".to_owned())
        }));
    }
    let (at, length) = BETWEEN
        .iter()
        .find_map(|word| Some((statement.lower.find(word)?, word.len())))?;
    let before = &statement.text[..at];
    let after = &statement.text[at + length - 1..];
    let context = context(statement);
    let context: Vec<&str> = context.iter().map(String::as_str).collect();
    let (given, mass, wanted) = match weighed(after, &context) {
        Some(Ok((given, mass))) => (given, mass, before),
        Some(Err(error)) => return Some(Err(error)),
        None => match weighed(before, &context)? {
            Ok((given, mass)) => (given, mass, after),
            Err(error) => return Some(Err(error)),
        },
    };
    let heads = [
        "mass of",
        "grams of",
        "weight of",
        "amount of",
        "how much",
        "how many grams of",
        "the mass of",
        "g of",
    ];
    let wanted = heads.iter().fold(wanted.trim(), |name, head| {
        name.strip_prefix(head).unwrap_or(name).trim()
    });
    Some(substance(name_end(wanted), &context).and_then(|wanted| {
        let equal = equal_mass(&given, mass, &wanted).ok_or("they share nothing")?;
        Ok(grams_in_unit(statement, equal))
    }))
}

pub(super) fn moles(statement: &Statement<'_>) -> Option<Found> {
    if statement.asks(&["mol", "mmol"]) && statement.has(&["mole", "amount", "mmol"]) {
        return Some(weighed(statement.text, &[])?.and_then(|(component, mass)| {
            let moles = moles_of(&component, mass).ok_or("it has no molar mass")?;
            Ok(moles_in_unit(statement, moles))
        }));
    }
    if statement.asks(&["g", "mg", "kg"]) && statement.has(&["mass", "weight", "grams"]) {
        let (value, rest, factor) = numbers(statement.text).into_iter().find_map(|(value, rest)| {
            let rest = rest.trim_start();
            let milli = rest.strip_prefix("mmol ").map(|rest| (value, rest, 1e-3));
            milli.or_else(|| rest.strip_prefix("mol ").map(|rest| (value, rest, 1.0)))
        })?;
        return Some(
            substance(name_end(rest.trim_start_matches("of ")), &[]).and_then(|component| {
                let mass = component.molar_mass().ok_or("it has no molar mass")?;
                Ok(grams_in_unit(statement, Mass::from_grams(mass * value * factor)))
            }),
        );
    }
    None
}
