//! Rows of the quantities tables: a statement in words, its value and unit.
//!
//! A statement is told by its words, not by its place, and its numbers by their units; what it names is looked up by the
//! library. Each reader gives `None` where the statement is of another kind.

use trayside::chem::{
    Component, GasMode, SodaForm, acid_equivalents, agent_shares, amount_to_reach, bake, baking_loss,
    buffer_capacity, carbon_dioxide_solubility, carry_over_limit, debye_hueckel_a, dissociation_pk,
    electrons, equal_mass, family_of, ideal_gas_volume, moles_of, sheets_until, silver_electrons, solve,
    water_density, water_pk,
};
use trayside::pantry::{Formula, Pantry};
use trayside::units::scalar::{AmountOfSubstance, Area, Mass, MassPerArea, Temperature, Volume};

use super::Outcome;
use super::chemistry::tolerance;
use super::csv::Row;
use super::words::{self, numbers, with_unit};

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
        ("molar mass", molar_mass),
        ("water content", water_content),
        ("sheets", sheets),
        ("silver electrons", silver),
        ("electrons of agents", agent_electrons),
        ("gas volume", gas),
        ("baking", baking),
        ("shares", fraction),
        ("buffer capacity", capacity),
        ("stop capacity", stop),
        ("constants", constant),
        ("amount to reach a pH", reach),
        ("neutralising", neutral),
        ("equal masses", equal),
        ("moles", moles),
        ("ionic strength", strength),
        ("pH", ph),
    ];
    let mut read = readers.into_iter();
    read.find_map(|(topic, reader)| Some((topic, reader(&statement)?)))
}

/// A substance by name; `also` are words to complete a name like `decahydrate`.
fn substance(name: &str, also: &[&str]) -> Result<Component, String> {
    let name = name.trim().trim_matches([',', '.', ':', ';']).trim();
    let name = ["of ", "the ", "a ", "pure ", "solid ", "dry "]
        .iter()
        .fold(name, |name, word| name.strip_prefix(word).unwrap_or(name));
    // An explicit formula or name first, by which `borax` weighs what its crystals weigh.
    let formula = trayside::chem::formula_of_name(name);
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
            let formula = trayside::chem::formula_of_name(&whole);
            if let Some(found) = formula.and_then(|formula| Component::of_formula(&formula).ok()) {
                return Ok(found);
            }
        }
    }
    let formula = trayside::chem::formula_of_name(&format!("sodium {name}"));
    let salt = formula.and_then(|formula| Component::of_formula(&formula).ok());
    salt.ok_or_else(|| direct.err().unwrap_or_default())
}

/// The text behind the first of some words that occurs.
fn behind<'a>(text: &'a str, words: &[&str]) -> Option<&'a str> {
    let lower = text.to_lowercase();
    words.iter().find_map(|word| {
        let at = lower.find(word)?;
        text.get(at + word.len()..)
    })
}

/// A name up to a bracket, comma or preposition.
fn name_end(text: &str) -> &str {
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
fn weighed(text: &str, also: &[&str]) -> Option<Result<(Component, Mass), String>> {
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

fn molar_mass(statement: &Statement<'_>) -> Option<Found> {
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
            .and_then(|mass| {
                Ok(if statement.asks(&["kg"]) {
                    mass / 1000.0
                } else {
                    mass
                })
            }),
    )
}

fn water_content(statement: &Statement<'_>) -> Option<Found> {
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

fn sheets(statement: &Statement<'_>) -> Option<Found> {
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

fn silver(statement: &Statement<'_>) -> Option<Found> {
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

fn agent_electrons(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["electron", "e-"]) || statement.has(&["silver"]) {
        return None;
    }
    let weighed = weighed(statement.text, &[])?;
    Some(weighed.and_then(|(component, mass)| {
        let moles = moles_of(&component, mass).ok_or("it has no molar mass")?;
        let bath = trayside::chem::Bath::new(statement.temperature(), Mass::from_kilograms(1.0))
            .add(&component, moles);
        Ok(moles_in_unit(statement, electrons(&bath)))
    }))
}

fn gas(statement: &Statement<'_>) -> Option<Found> {
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

fn soda_form(text: &str) -> Option<SodaForm> {
    let lower = text.to_lowercase();
    let has = |words: &[&str]| words.iter().any(|word| lower.contains(word));
    if has(&[
        "bicarb",
        "hydrogen carbonate",
        "hydrogencarbonate",
        "baking soda",
        "nahco3",
    ]) {
        Some(SodaForm::Bicarbonate)
    } else if has(&["deca", "crystals", "10h2o"]) {
        Some(SodaForm::Decahydrate)
    } else if has(&["mono", "·h2o", ".h2o"]) {
        Some(SodaForm::Monohydrate)
    } else if has(&["anhydrous", "na2co3"]) {
        Some(SodaForm::Anhydrous)
    } else {
        None
    }
}

fn baking(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["bak", "heat", "calcin"]) {
        return None;
    }
    if statement.has(&["ph "])
        || !statement.has(&[
            "loss",
            "lose",
            "lost",
            "left",
            "from",
            "remain",
            "yield",
            "converted",
            "complete",
            "full",
        ])
    {
        return None;
    }
    // What goes in stands behind the last `of` or `from` where both forms are named.
    let lower = &statement.lower;
    let source = ["g of ", "g ", "baking of ", "baking ", "from ", "loss of "]
        .iter()
        .find_map(|word| {
            lower
                .rfind(word)
                .map(|at| &lower[at..])
                .filter(|rest| soda_form(rest).is_some())
        });
    let source = source.unwrap_or(lower);
    // `baking soda` names the powder and no deed.
    let form = soda_form(source).or_else(|| soda_form(lower))?;
    let grams = with_unit(statement.text, &["g", "grams", "gram"]);
    let part = numbers(statement.text).into_iter().find_map(|(value, rest)| {
        let rest = rest.trim_start();
        rest.strip_prefix('%').map(|_| value / 100.0)
    });
    let part = part
        .or_else(|| statement.has(&["half"]).then_some(0.5))
        .unwrap_or(1.0);
    let loss = match form {
        SodaForm::Bicarbonate => baking_loss(part),
        other => other.full_loss() * part,
    };
    let wants_loss = statement.has(&["loss", "lose", "lost"]);
    Some(match (wants_loss, grams) {
        (true, Some(grams)) if !statement.unit.contains('%') && statement.asks(&["g"]) => Ok(grams * loss),
        (true, _) => Ok(per_cent(statement, loss)),
        (false, Some(grams)) => {
            if form == SodaForm::Bicarbonate && !statement.has(&["left", "remain", "residue"]) {
                bake(Mass::from_grams(grams), loss)
                    .map_err(|error| error.to_string())
                    .map(|[(carbonate, moles), _]| moles.moles() * carbonate.molar_mass().unwrap_or(f64::NAN))
            } else {
                Ok(grams * (1.0 - loss))
            }
        }
        (false, None) => Ok(per_cent(statement, 1.0 - loss)),
    })
}

/// The composition at the end of a statement: what stands before it, the bath, its gas mode.
fn bath_of(statement: &Statement<'_>) -> Option<Result<(trayside::chem::Bath, GasMode), String>> {
    let text = statement.text;
    // From the first preposition behind which a composition can be read, up to its unit or temperature.
    let mut why = None;
    for word in [" in ", " of ", " for ", ": ", " from "] {
        for (at, _) in text.match_indices(word) {
            let rest = &text[at + word.len()..];
            let ends = [
                " mol/kg",
                " mol kg",
                " m at",
                " m,",
                " at ",
                ", foam",
                ", degas",
                ", closed",
                ", held",
                ", equil",
                ", stood",
                " (",
                ", 1",
                ", 2",
                ", 3",
                " to pH",
                " to reach",
            ];
            let end = ends
                .iter()
                .filter_map(|end| rest.find(end))
                .min()
                .unwrap_or(rest.len());
            match words::composition(&rest[..end]) {
                Ok(terms) => {
                    let gas = mode_of(&rest[end..]);
                    return Some(gas.map(|gas| (words::bath(&terms, statement.celsius()), gas)));
                }
                Err(error) => why = Some(error),
            }
        }
    }
    why.map(Err)
}

/// The gas mode that running text names; held if it names none.
fn mode_of(text: &str) -> Result<GasMode, String> {
    let lower = text.to_lowercase();
    let named = [
        "closed", "held", "degas", "foam", "fizz", "stood", "stirred", "air", "pco2",
    ];
    match named.iter().filter_map(|word| lower.find(word)).min() {
        Some(at) => words::gas_mode(&lower[at..]),
        None => Ok(GasMode::Held),
    }
}

fn fraction(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["fraction", "share", "ionised", "ionized", "dissociated"])
        || statement.has(&["mass fraction"])
    {
        return None;
    }
    let bath = bath_of(statement)?;
    Some(bath.and_then(|(bath, gas)| {
        let equilibrium = solve(&bath, gas).map_err(|error| error.to_string())?;
        let head = statement.text;
        let head = [" in ", ": "]
            .iter()
            .filter_map(|word| head.find(word))
            .min()
            .map_or(head, |at| &head[..at]);
        let separated = head.replace(['+', '/', ',', '='], " ").replace(" and ", " ");
        // A plus sign between species has gone; one that was a charge is put back.
        let mut shares: Vec<(String, f64)> = Vec::new();
        for token in separated.split_whitespace() {
            for name in [token.to_owned(), format!("{token}+")] {
                if let Some(found) = words::share(&equilibrium, &name)
                    && !shares.iter().any(|(known, _)| *known == name)
                {
                    shares.push((name, found));
                    break;
                }
            }
        }
        if !shares.is_empty() {
            return Ok(per_cent(statement, shares.iter().map(|(_, share)| share).sum()));
        }
        let agents = agent_shares(&equilibrium);
        let lower = &statement.lower;
        let agent = agents
            .iter()
            .find(|agent| lower.contains(agent.family) || lower.contains(agent.name));
        match (agent, agents.as_slice()) {
            (Some(agent), _) => Ok(per_cent(statement, agent.ionised)),
            (None, [agent]) => Ok(per_cent(statement, agent.ionised)),
            _ => Err("no species and no agent".to_owned()),
        }
    }))
}

fn capacity(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["buffer capacity", "buffering", "buffer value"]) {
        return None;
    }
    Some(bath_of(statement)?.and_then(|(bath, gas)| {
        let capacity = buffer_capacity(&bath, gas).map_err(|error| error.to_string())?;
        Ok(if statement.asks(&["mmol"]) {
            capacity.millimoles_per_kilogram()
        } else {
            capacity.moles_per_kilogram()
        })
    }))
}

fn stop(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["stop"]) || !statement.has(&["developer"]) || !statement.has(&["ph"]) {
        return None;
    }
    let limit = behind(statement.text, &["ph"]).and_then(|rest| numbers(rest).first().map(|n| n.0))?;
    let part = |words: &[&str]| {
        let rest = behind(statement.text, words)?;
        let start = rest.find(|c: char| c.is_ascii_digit() || c == '.')?;
        let rest = &rest[start..];
        let ends = [
            " mol/kg", " m ", " at ", " until", " to ", " into ", " (", ")", ", ", ";",
        ];
        let end = ends
            .iter()
            .filter_map(|end| rest.find(end))
            .min()
            .unwrap_or(rest.len());
        words::composition(&rest[..end]).ok()
    };
    let (Some(stop), Some(developer)) = (part(&["stop"]), part(&["developer"])) else {
        return Some(Err("no stop and developer".to_owned()));
    };
    let (stop, developer) = (
        words::bath(&stop, statement.celsius()),
        words::bath(&developer, statement.celsius()),
    );
    let ratio =
        carry_over_limit(&stop, &developer, limit, GasMode::Fizzed).map_err(|error| error.to_string());
    Some(ratio.map(|ratio| {
        if statement.asks(&["ml"]) {
            1000.0 * ratio
        } else {
            ratio
        }
    }))
}

fn constant(statement: &Statement<'_>) -> Option<Found> {
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

fn reach(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["to reach ph", "to bring", "to ph"]) {
        return None;
    }
    let target = behind(statement.text, &["ph "]).and_then(|rest| numbers(rest).first().map(|n| n.0))?;
    let name = statement
        .text
        .split([' '])
        .find_map(|word| Component::named(word.trim_matches(',')).ok())?;
    Some(bath_of(statement)?.and_then(|(bath, gas)| {
        let amount = amount_to_reach(&bath, &name, target, gas).map_err(|error| error.to_string())?;
        Ok(match (statement.asks(&["g"]), name.molar_mass()) {
            (true, Some(mass)) => amount.moles() * mass,
            _ => moles_in_unit(statement, amount),
        })
    }))
}

fn neutral(statement: &Statement<'_>) -> Option<Found> {
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

fn equal(statement: &Statement<'_>) -> Option<Found> {
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
        let (one, other, turned) = match rest.split_once(" to ") {
            Some((one, other)) => (one, other, statement.has(&["factor"])),
            None => {
                let (one, other) = rest.split_once(" for ").or_else(|| rest.split_once('/'))?;
                (one, other, false)
            }
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

/// What the statement says the two sides are equal in, and the salts it names: to complete `decahydrate` or `anhydrous`.
fn context(statement: &Statement<'_>) -> Vec<String> {
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

fn moles(statement: &Statement<'_>) -> Option<Found> {
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

fn strength(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["ionic strength"]) {
        return None;
    }
    Some(bath_of(statement)?.and_then(|(bath, gas)| {
        let equilibrium = solve(&bath, gas).map_err(|error| error.to_string())?;
        Ok(equilibrium.ionic_strength().moles_per_kilogram())
    }))
}

fn ph(statement: &Statement<'_>) -> Option<Found> {
    let released = statement.has(&["released", "given off", "co2 leaving"]);
    if !(statement.unit == "ph" || statement.lower.starts_with("ph ") || released) {
        return None;
    }
    Some(bath_of(statement)?.and_then(|(bath, gas)| {
        let equilibrium = solve(&bath, gas).map_err(|error| error.to_string())?;
        Ok(match (released, statement.asks(&["mmol"])) {
            (false, _) => equilibrium.ph(),
            (true, true) => equilibrium.co2_released().millimoles_per_kilogram(),
            (true, false) => equilibrium.co2_released().moles_per_kilogram(),
        })
    }))
}

#[test]
fn statements_in_other_words_are_understood() {
    let mut wrong = Vec::new();
    for (statement, unit, expected, tolerance) in [
        ("molar mass of potassium metabisulfite", "g/mol", 222.3, 0.1),
        ("molar mass of citric acid monohydrate", "g/mol", 210.14, 0.02),
        ("molar mass of rosmarinic acid", "g/mol", 360.32, 0.02),
        ("molar mass of potassium bromide", "g/mol", 119.00, 0.02),
        ("molar mass of sodium ascorbate", "g/mol", 198.106, 0.02),
        ("molar mass of borax", "g/mol", 381.37, 0.02),
        (
            "water content of sodium carbonate decahydrate",
            "% w/w",
            62.96,
            0.05,
        ),
        (
            "water content of sodium thiosulfate pentahydrate",
            "% w/w",
            36.29,
            0.05,
        ),
        (
            "mass of monohydrate equal in carbonate to 50 g anhydrous",
            "g",
            58.5,
            0.1,
        ),
        (
            "mass of anhydrous equal in carbonate to 135 g decahydrate",
            "g",
            50.0,
            0.1,
        ),
        (
            "mass of anhydrous thiosulfate equal in thiosulfate to 250 g pentahydrate",
            "g",
            159.3,
            0.2,
        ),
        (
            "mass of sodium thiosulfate pentahydrate equal in thiosulfate to 100 g anhydrous sodium thiosulfate",
            "g",
            156.97,
            0.2,
        ),
        (
            "ascorbic acid equal to 20 g sodium ascorbate (ascorbate basis)",
            "g",
            17.78,
            0.05,
        ),
        (
            "mass of bicarbonate equal in carbonate to 10 g anhydrous",
            "g",
            7.93,
            0.05,
        ),
        (
            "citric acid monohydrate equal to 15 g anhydrous citric acid",
            "g",
            16.41,
            0.05,
        ),
        (
            "anhydrous carbonate from complete baking of 250 g baking soda",
            "g",
            157.7,
            0.1,
        ),
        ("mass loss on complete baking of bicarbonate", "%", 36.92, 0.05),
        (
            "mass loss when 50 g sodium bicarbonate is baked completely",
            "g",
            18.46,
            0.05,
        ),
        ("mass loss on full baking of decahydrate", "% w/w", 62.96, 0.05),
        (
            "ideal CO2 volume when 15 g citric acid meets excess bicarbonate (3 eq), 20 C, 1 atm",
            "mL",
            5634.0,
            20.0,
        ),
        (
            "ideal CO2 volume when 5 g citric acid meets excess bicarbonate (3 eq), 25 C, 1 atm",
            "mL",
            1910.0,
            10.0,
        ),
        (
            "ideal CO2 volume from 10 g sodium bicarbonate with excess acid, 20 C, 1 atm",
            "L",
            2.863,
            0.01,
        ),
        (
            "ideal gas volume of 0.05 mol CO2 at 20 C and 1 atm",
            "mL",
            1202.7,
            2.0,
        ),
        (
            "fraction of carbonate present as CO3-2 in 0.4 Na2CO3 + 0.08 H2Asc mol/kgw at 20 C",
            "mol/mol",
            0.78,
            0.05,
        ),
        (
            "fraction of gallic acid with ionised phenol (H2Gal-2 + HGal-3) in 0.3 Na2CO3 + 0.03 gallic mol/kgw at 20 C",
            "mol/mol",
            0.99,
            0.05,
        ),
        (
            "fraction of ascorbate present as Asc2- in 0.5 Na2CO3 + 0.1 NaAsc mol/kgw at 24 C, closed",
            "mol/mol",
            0.3,
            0.1,
        ),
        (
            "buffer capacity of 0.1 H3Cit + 0.1 Na3Cit mol/kgw at 25 C",
            "mol/kgw per pH",
            0.161,
            0.01,
        ),
        (
            "sheets until stop limit: V=2000 mL, carry-in=carry-out=7.7 mL/sheet, limit ratio v=0.168 L developer per L stop",
            "sheets (floor)",
            40.0,
            1.0,
        ),
        (
            "sheets until stop limit: V = 1 L, carry-in = carry-out = 7.7 mL/sheet, limit ratio v = 0.214",
            "sheets",
            25.0,
            1.0,
        ),
        (
            "electrons to reduce 0.25 of 2.0 g/m2 silver on 0.0127 m2",
            "mmol e-",
            0.0589,
            0.001,
        ),
        (
            "electron equivalents in 10 g rosmarinic acid (4 e-)",
            "mmol e-",
            111.0,
            0.5,
        ),
        (
            "electron equivalents in 5 g hydroquinone (2 e-)",
            "mmol e-",
            90.8,
            0.5,
        ),
        (
            "mass of sodium hydroxide to neutralise 16 g ascorbic acid (1 eq)",
            "g",
            3.63,
            0.01,
        ),
        ("moles in 50 g sodium carbonate decahydrate", "mol", 0.1747, 0.001),
        ("mass of 0.4 mol sodium carbonate", "g", 42.4, 0.1),
        ("pKw at 20 C", "-", 14.165, 0.002),
        ("pK2 of citric acid at 40 C", "-", 4.753, 0.002),
        ("Debye-Hueckel A at 20 C", "-", 0.5067, 0.0003),
        ("CO2 solubility at 20 C and 1 atm", "mol/kg/atm", 0.0392, 0.0002),
        ("ratio of decahydrate to anhydrous carbonate", "-", 2.700, 0.002),
        (
            "ionic strength of 0.5 Na2CO3 mol/kgw at 20 C",
            "mol/kgw",
            1.495,
            0.01,
        ),
        ("pH of 0.1 Na2CO3 mol/kgw at 20 C", "pH", 11.48, 0.05),
        ("molar mass of KAl(SO4)2·12H2O", "g/mol", 474.37, 0.05),
        (
            "fraction of citrate present as Cit3- in 0.1 Na3Cit mol/kgw at 25 C",
            "mol/mol",
            1.0,
            0.01,
        ),
        (
            "fraction of acetate present as Ac- in 0.1 HAc + 0.1 NaAc mol/kgw at 25 C",
            "mol/mol",
            0.5,
            0.01,
        ),
        (
            "fraction of boron present as B(OH)4- in 0.01 borax mol/kgw at 25 C",
            "mol/mol",
            0.49,
            0.03,
        ),
        (
            "fraction of sulfite present as SO3-2 in 1 Na2S2O3 + 0.08 Na2SO3 mol/kgw at 20 C",
            "mol/mol",
            1.0,
            0.01,
        ),
        (
            "fraction of chlorogenic acid with ionised catechol (HCGA2- + CGA3-) in 0.4 Na2CO3 + 0.01 chlorogenic mol/kgw at 20 C",
            "mol/mol",
            1.0,
            0.02,
        ),
        (
            "fraction of rosmarinic acid with ionised catechol (HRos2- + Ros3-) in 0.4 Na2CO3 + 0.01 rosmarinic mol/kgw at 22 C",
            "mol/mol",
            1.0,
            0.02,
        ),
        (
            "fraction of hydroquinone ionised (HQ- + Q2-) in 0.4 Na2CO3 + 0.05 HQ mol/kgw at 20 C",
            "mol/mol",
            0.9,
            0.1,
        ),
        (
            "fraction of ascorbic acid present as HAsc- in 0.4 NaHCO3 + 0.08 H2Asc mol/kgw at 20 C",
            "mol/mol",
            0.998,
            0.003,
        ),
        (
            "fraction of dissolved CO2 in 0.3 NaHCO3 + 0.1 H2Asc mol/kgw at 20 C (as CO2)",
            "mol/mol",
            0.4,
            0.2,
        ),
        (
            "buffer capacity of 0.3 NaHCO3 + 0.3 Na2CO3 mol/kgw at 20 C",
            "mol/kgw per pH",
            0.34,
            0.03,
        ),
        (
            "mass of sodium carbonate monohydrate equal in carbonate to 40 g decahydrate",
            "g",
            17.33,
            0.03,
        ),
        (
            "mass of pentahydrate equal in thiosulfate to 127 g anhydrous",
            "g",
            199.4,
            0.2,
        ),
        (
            "sodium carbonate (anhydrous) obtained by completely baking 50 g sodium bicarbonate",
            "g",
            31.54,
            0.05,
        ),
        (
            "mass loss of 100 g bicarbonate on complete baking",
            "g",
            36.92,
            0.05,
        ),
        (
            "ascorbic acid equal to 18 g sodium ascorbate (ascorbate basis)",
            "g",
            16.0,
            0.05,
        ),
        (
            "ideal CO2 volume when 20 g citric acid meets excess bicarbonate (3 eq), 20 C, 1 atm",
            "mL",
            7512.0,
            30.0,
        ),
        (
            "ideal CO2 volume when 16 g ascorbic acid meets excess bicarbonate (1 eq), 25 C, 1 atm",
            "mL",
            2222.0,
            20.0,
        ),
        (
            "sheets until stop limit: V=500 mL, carry-in=carry-out=3 mL/sheet, limit ratio v=0.263 L developer per L stop",
            "sheets (floor)",
            38.0,
            1.0,
        ),
        (
            "electrons to reduce 0.5 of 1.3 g/m2 silver on 0.0258 m2",
            "mmol e-",
            0.1555,
            0.002,
        ),
        (
            "electron equivalents in 40 g caffeic acid (2 e-)",
            "mmol e-",
            444.1,
            0.5,
        ),
        (
            "electron equivalents in 2 g gallic acid (2 e-)",
            "mmol e-",
            23.5,
            0.1,
        ),
        ("water content of citric acid monohydrate", "% w/w", 8.57, 0.05),
        ("water content of borax decahydrate", "% w/w", 47.24, 0.05),
        (
            "CO2 released by foaming in 0.3 NaHCO3 + 0.1 H2Asc mol/kgw at 20 C, foamed",
            "mol/kgw",
            0.0627,
            0.0025,
        ),
    ] {
        let verdict = match read(statement, unit) {
            Some((_, Ok(found))) if (found - expected).abs() <= tolerance => continue,
            Some((topic, found)) => format!("{topic}: {found:?}, not {expected}"),
            None => "not understood".to_owned(),
        };
        wrong.push(format!("{statement}: {verdict}"));
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(read("the smell of the bath", "").is_none());
}
