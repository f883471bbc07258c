//! Statements about a bath whose composition they give.

use trayside::chem::{
    Bath, Component, GasMode, agent_shares, amount_to_reach, buffer_capacity, carry_over_limit, solve,
};

use super::super::words::{self, numbers};
use super::substance::behind;
use super::{Found, Statement, moles_in_unit, per_cent};

pub(super) fn fraction(statement: &Statement<'_>) -> Option<Found> {
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

pub(super) fn capacity(statement: &Statement<'_>) -> Option<Found> {
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

pub(super) fn stop(statement: &Statement<'_>) -> Option<Found> {
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

pub(super) fn reach(statement: &Statement<'_>) -> Option<Found> {
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

pub(super) fn strength(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["ionic strength"]) {
        return None;
    }
    Some(bath_of(statement)?.and_then(|(bath, gas)| {
        let equilibrium = solve(&bath, gas).map_err(|error| error.to_string())?;
        Ok(equilibrium.ionic_strength().moles_per_kilogram())
    }))
}

pub(super) fn ph(statement: &Statement<'_>) -> Option<Found> {
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

/// The composition at the end of a statement: what stands before it, the bath, its gas mode.
pub(super) fn bath_of(statement: &Statement<'_>) -> Option<Result<(Bath, GasMode), String>> {
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
pub(super) fn mode_of(text: &str) -> Result<GasMode, String> {
    let lower = text.to_lowercase();
    let named = [
        "closed", "held", "degas", "foam", "fizz", "stood", "stirred", "air", "pco2",
    ];
    match named.iter().filter_map(|word| lower.find(word)).min() {
        Some(at) => words::gas_mode(&lower[at..]),
        None => Ok(GasMode::Held),
    }
}
