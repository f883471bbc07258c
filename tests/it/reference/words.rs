//! The pieces that table cells are made of: numbers, compositions, gas modes, species.

use trayside::chem::{Bath, Component, Equilibrium, GasMode};
use trayside::units::scalar::{AmountOfSubstance, Mass, Pressure, Temperature};

/// A number, with a comma or a point, a true minus sign, `x 10^n` or `e`.
pub(crate) fn number(text: &str) -> Option<f64> {
    let plain = text
        .trim()
        .replace(['−', '–'], "-")
        .replace(',', ".")
        .replace(' ', "");
    let plain = ["x10^", "×10^", "*10^"]
        .iter()
        .fold(plain, |text, power| text.replace(power, "e"));
    plain.parse().ok().filter(|value: &f64| value.is_finite())
}

/// The number that `text` begins with, and what follows it.
pub(crate) fn leading_number(text: &str) -> Option<(f64, &str)> {
    let text = text.trim_start();
    let mut best = None;
    let mut end = 0;
    for (at, c) in text.char_indices() {
        if !(c.is_ascii_digit() || matches!(c, '.' | 'e' | 'E' | '+' | '-' | '−')) {
            break;
        }
        end = at + c.len_utf8();
        if let Some(value) = number(&text[..end]) {
            best = Some((value, end));
        }
    }
    let _ = end;
    let (value, end) = best?;
    // `2H2O` and `5CQA` are no numbers before a unit; a letter right behind one is part of a name.
    Some((value, &text[end..]))
}

/// Every number in a text with what follows it, in order. Digits within words do not count.
pub(crate) fn numbers(text: &str) -> Vec<(f64, &str)> {
    let mut found = Vec::new();
    let mut before = ' ';
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        let starts =
            c.is_ascii_digit() || (c == '.' && text[at + 1..].starts_with(|c: char| c.is_ascii_digit()));
        if starts
            && !before.is_alphanumeric()
            && before != '.'
            && let Some((value, rest)) = leading_number(&text[at..])
        {
            let minus = matches!(before, '-' | '−') && {
                let head = text[..at].trim_end_matches(['-', '−']);
                head.ends_with([' ', '=', '(']) || head.is_empty()
            };
            found.push((if minus { -value } else { value }, rest));
            let next = text.len() - rest.len();
            before = text[..next].chars().next_back().unwrap_or(' ');
            at = next;
            continue;
        }
        before = c;
        at += c.len_utf8();
    }
    found
}

/// The number before a unit that begins with one of `units`.
pub(crate) fn with_unit(text: &str, units: &[&str]) -> Option<f64> {
    numbers(text).into_iter().find_map(|(value, rest)| {
        let rest = rest.trim_start();
        let unit: String = rest
            .chars()
            .take_while(|c| !c.is_whitespace() && !matches!(c, ',' | ';' | ')' | '('))
            .collect();
        units.contains(&unit.as_str()).then_some(value)
    })
}

/// A temperature in °C in running text, such as `at 20 C`.
pub(crate) fn celsius(text: &str) -> Option<f64> {
    with_unit(text, &["C", "°C", "degC", "C.", "°C."]).or_else(|| {
        let after = text.split("deg").next()?;
        numbers(after)
            .last()
            .filter(|(_, rest)| rest.trim().is_empty())
            .map(|(value, _)| *value)
    })
}

/// A composition: terms such as `0.3 NaHCO3` or `NaHCO3 0.3`, joined by `+`, `,` or `and`; amounts in mol/kg of water.
pub(crate) fn composition(text: &str) -> Result<Vec<(Component, f64)>, String> {
    let joined = text
        .replace(" and ", " + ")
        .replace(" with ", " + ")
        .replace(';', "+")
        .replace(", ", " + ");
    let mut terms = Vec::new();
    for term in joined.split('+') {
        let term = term.trim().trim_end_matches('.');
        if term.is_empty() {
            continue;
        }
        let (amount, name) = match leading_number(term) {
            Some((amount, name)) if !name.starts_with(|c: char| c.is_alphanumeric()) => {
                (amount, name.to_owned())
            }
            _ => {
                let (name, amount) = term
                    .rsplit_once(' ')
                    .ok_or_else(|| format!("no amount in `{term}`"))?;
                (
                    number(amount).ok_or_else(|| format!("no amount in `{term}`"))?,
                    name.to_owned(),
                )
            }
        };
        let mut factor = 1.0;
        let mut name = name.trim();
        for (unit, value) in [
            ("mol/kgw", 1.0),
            ("mol/kg", 1.0),
            ("mol kg-1", 1.0),
            ("mmol/kgw", 1e-3),
            ("mmol/kg", 1e-3),
            ("mmol", 1e-3),
            ("mol", 1.0),
            ("mM", 1e-3),
            ("m", 1.0),
        ] {
            if let Some(rest) = name.strip_prefix(unit).filter(|rest| rest.starts_with(' ')) {
                (name, factor) = (rest.trim(), value);
                break;
            }
        }
        let name = name.trim_start_matches("of ").trim();
        let component = Component::named(name).map_err(|error| error.to_string())?;
        terms.push((component, amount * factor));
    }
    if terms.is_empty() {
        return Err(format!("no composition in `{text}`"));
    }
    Ok(terms)
}

/// The bath of a composition: so much of each in a kilogram of water in all.
pub(crate) fn bath(terms: &[(Component, f64)], celsius: f64) -> Bath {
    let water = Mass::from_kilograms(1.0);
    let mut bath = Bath::new(Temperature::from_celsius(celsius), water);
    for (component, moles) in terms {
        bath = bath.add(component, AmountOfSubstance::from_moles(*moles));
    }
    bath.with_water(water)
}

/// How much gas a mode lets go.
pub(crate) fn gas_mode(text: &str) -> Result<GasMode, String> {
    let lower = text.to_lowercase();
    let atmospheres = || -> Option<f64> {
        let behind = lower.find("pco2").map_or(lower.as_str(), |at| &lower[at + 4..]);
        let (value, rest) = *numbers(behind).first()?;
        if lower.contains("log pco2") || lower.contains("log10") || lower.contains("log(pco2)") {
            return Some(libm::pow(10.0, value));
        }
        let unit = rest.trim_start();
        let factor = if unit.starts_with("kpa") {
            1.0 / 101.325
        } else if unit.starts_with("ppm") || unit.starts_with("µatm") || unit.starts_with("uatm") {
            1e-6
        } else if unit.starts_with("mbar") {
            1.0 / 1013.25
        } else if unit.starts_with("bar") {
            1.0 / 1.01325
        } else {
            1.0
        };
        Some(value * factor)
    };
    let word = |words: &[&str]| words.iter().any(|word| lower.contains(word));
    if lower.is_empty() || word(&["closed", "held", "sealed", "nothing lost", "no gas"]) {
        return Ok(GasMode::Held);
    }
    if word(&["air", "atmosphere equil", "equilibrium with", "open"]) {
        return Ok(atmospheres().map_or(GasMode::Aired, |p| GasMode::Open(Pressure::from_atmospheres(p))));
    }
    if word(&["degas", "stood", "stirred", "left", "foam", "fizz", "pco2"]) {
        let pressure = atmospheres();
        return Ok(match pressure {
            None if word(&["degas", "foam", "fizz"]) => GasMode::Fizzed,
            Some(1.0) => GasMode::Fizzed,
            Some(p) => GasMode::Stood(Pressure::from_atmospheres(p)),
            None => return Err(format!("no gas mode in `{text}`")),
        });
    }
    Err(format!("no gas mode in `{text}`"))
}

/// The share of its family that a species has, whichever way its charge is written: `Asc-2`, `Asc2-`, `Asc--`, `Asc 2-`.
pub(crate) fn share(equilibrium: &Equilibrium, name: &str) -> Option<f64> {
    let all = spellings(name);
    let known = all.iter().find_map(|name| equilibrium.share(name));
    known.or_else(|| {
        // `HCGA-2` for `HCga-2`.
        let mut species = equilibrium.species();
        let (found, _) =
            species.find(|(species, _)| all.iter().any(|name| name.eq_ignore_ascii_case(species)))?;
        equilibrium.share(found)
    })
}

/// Ways in which the library may spell a species.
pub(crate) fn spellings(name: &str) -> Vec<String> {
    let plain: String = name
        .trim_matches(|c: char| matches!(c, '(' | '[' | ']' | ',' | ';' | ':'))
        .replace(['−', '–'], "-")
        .replace(['^', '{', '}', ' '], "")
        .replace("(aq)", "");
    let plain = ["CQA", "5CQA", "Chl", "ChA"]
        .iter()
        .fold(plain, |plain, sign| plain.replace(sign, "Cga"));
    let plain = plain
        .replace("Rosm", "Ros")
        .replace("RA-", "Ros-")
        .replace("Tartr", "Tart");
    let mut all = vec![plain.clone()];
    let signs = plain.chars().rev().take_while(|c| *c == '-').count();
    if signs > 1 {
        all.push(format!("{}-{signs}", plain.trim_end_matches('-')));
    }
    if signs == 1 {
        let body = plain.trim_end_matches('-');
        if let Some(charge) = body.chars().next_back().filter(char::is_ascii_digit) {
            all.push(format!("{}-{charge}", &body[..body.len() - 1]));
        }
    }
    // A closing bracket that belongs to the sentence.
    if plain.ends_with(')') && plain.matches(')').count() > plain.matches('(').count() {
        all.extend(spellings(&plain[..plain.len() - 1]));
    }
    all
}

#[test]
fn pieces_are_read() {
    assert_eq!(number("2.888e-05"), Some(2.888e-5));
    assert_eq!(celsius("x at 20 C"), Some(20.0));
    assert_eq!(celsius("in 0.4 Na2CO3 at 25 °C, held"), Some(25.0));
    let values: Vec<f64> = numbers("V=1000 mL, carry-in=1.5 mL, Na2CO3, .3, pH -3.38")
        .iter()
        .map(|n| n.0)
        .collect();
    assert_eq!(values, [1000.0, 1.5, 0.3, -3.38]);
    let amounts = |text| -> Vec<f64> { composition(text).unwrap().iter().map(|term| term.1).collect() };
    assert_eq!(amounts("0.3 NaHCO3 + 0.15 Na2CO3"), [0.3, 0.15]);
    assert_eq!(amounts("Na2CO3 .4 + caffeic .02"), [0.4, 0.02]);
    assert_eq!(
        amounts("0.1 mol/kg citric acid and 50 mmol/kg sodium acetate"),
        [0.1, 0.05]
    );
    assert!(composition("0.1 unobtainium").is_err());
    assert_eq!(gas_mode("closed"), Ok(GasMode::Held));
    assert_eq!(gas_mode("degas to pCO2<=1 atm"), Ok(GasMode::Fizzed));
    assert_eq!(
        gas_mode("degas to pCO2 0.01 atm"),
        Ok(GasMode::Stood(Pressure::from_atmospheres(0.01)))
    );
    assert_eq!(gas_mode("equilibrium with air"), Ok(GasMode::Aired));
    assert!(
        matches!(gas_mode("equilibrium with air log pCO2 -3.38"), Ok(GasMode::Open(p)) if (p.atmospheres() - 4.169e-4).abs() < 1e-6)
    );
    assert!(gas_mode("upside down").is_err());
    assert!(spellings("PO43-").contains(&"PO4-3".to_owned()));
    assert!(spellings("Asc2-").contains(&"Asc-2".to_owned()));
}
