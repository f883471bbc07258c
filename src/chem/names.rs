//! Chemical names such as `disodium hydrogen phosphate dodecahydrate`, read into formulas.

use crate::pantry::Formula;

/// Cations of one charge by their names.
const CATIONS: &[(&str, &str)] = &[
    ("sodium", "Na"),
    ("potassium", "K"),
    ("ammonium", "NH4"),
    ("na", "Na"),
    ("k", "K"),
    ("silver", "Ag"),
    ("lithium", "Li"),
];

/// Anions by name: the atoms without any hydrogen that dissociates, and the charge they then have.
const ANIONS: &[(&str, &str, u32)] = &[
    ("carbonate", "CO3", 2),
    ("sulfite", "SO3", 2),
    ("sulphite", "SO3", 2),
    ("sulfate", "SO4", 2),
    ("sulphate", "SO4", 2),
    ("thiosulfate", "S2O3", 2),
    ("thiosulphate", "S2O3", 2),
    ("hyposulfite", "S2O3", 2),
    ("hyposulphite", "S2O3", 2),
    ("metabisulfite", "S2O5", 2),
    ("metabisulphite", "S2O5", 2),
    ("disulfite", "S2O5", 2),
    ("phosphate", "PO4", 3),
    ("orthophosphate", "PO4", 3),
    ("citrate", "C6H5O7", 3),
    ("acetate", "C2H3O2", 1),
    ("ascorbate", "C6H7O6", 1),
    ("isoascorbate", "C6H7O6", 1),
    ("erythorbate", "C6H7O6", 1),
    ("tetraborate", "B4O7", 2),
    ("metaborate", "BO2", 1),
    ("hydroxide", "OH", 1),
    ("chloride", "Cl", 1),
    ("bromide", "Br", 1),
    ("iodide", "I", 1),
    ("nitrate", "NO3", 1),
    ("phthalate", "C8H4O4", 2),
    ("biphthalate", "C8H4O4", 2),
    ("tartrate", "C4H4O6", 2),
    ("bitartrate", "C4H4O6", 2),
    ("oxalate", "C2O4", 2),
    ("bicarbonate", "CO3", 2),
    ("bisulfite", "SO3", 2),
    ("bisulphite", "SO3", 2),
    ("bisulfate", "SO4", 2),
    ("bisulphate", "SO4", 2),
];

/// Names that say nothing of what they are made of.
const WHOLE: &[(&str, &str)] = &[
    ("borax", "Na2B4O7·10H2O"),
    ("hypo", "Na2S2O3·5H2O"),
    ("tsp", "Na3PO4"),
    ("baking soda", "NaHCO3"),
    ("bicarbonate of soda", "NaHCO3"),
    ("caustic soda", "NaOH"),
    ("caustic potash", "KOH"),
    ("caustic", "NaOH"),
    ("table salt", "NaCl"),
    ("salt", "NaCl"),
    ("water", "H2O"),
    ("tetroxalate", "KH3C4O8"),
    ("potassium tetroxalate", "KH3C4O8"),
    ("cream of tartar", "KHC4H4O6"),
    ("rochelle salt", "KNaC4H4O6·4H2O"),
    ("trona", "Na3H(CO3)2·2H2O"),
    ("ascorbic acid", "C6H8O6"),
    ("vitamin c", "C6H8O6"),
    ("citric acid", "C6H8O7"),
    ("acetic acid", "C2H4O2"),
    ("caffeic acid", "C9H8O4"),
    ("chlorogenic acid", "C16H18O9"),
    ("rosmarinic acid", "C18H16O8"),
    ("gallic acid", "C7H6O5"),
    ("tartaric acid", "C4H6O6"),
    ("oxalic acid", "C2H2O4"),
    ("phthalic acid", "C8H6O4"),
    ("boric acid", "H3BO3"),
    ("phosphoric acid", "H3PO4"),
    ("sulfuric acid", "H2SO4"),
    ("sulphuric acid", "H2SO4"),
    ("sulfurous acid", "H2SO3"),
    ("hydrochloric acid", "HCl"),
    ("hydrobromic acid", "HBr"),
    ("nitric acid", "HNO3"),
    ("hydroquinone", "C6H6O2"),
    ("catechol", "C6H6O2"),
    ("pyrocatechol", "C6H6O2"),
    ("pyrogallol", "C6H6O3"),
    ("phenol", "C6H6O"),
    ("carbon dioxide", "CO2"),
    ("ammonia", "NH3"),
    ("glucose", "C6H12O6"),
    ("sucrose", "C12H22O11"),
];

/// How many, as a word before a part of a name.
const COUNTS: &[(&str, u32)] = &[
    ("dodeca", 12),
    ("deca", 10),
    ("nona", 9),
    ("octa", 8),
    ("hepta", 7),
    ("hexa", 6),
    ("penta", 5),
    ("tetra", 4),
    ("tri", 3),
    ("di", 2),
    ("mono", 1),
];

/// The formula that a systematic name stands for, with the water of crystallisation that it names.
///
/// Known are salts of sodium, potassium and ammonium with the anions of a darkroom, the acids themselves and a few words of
/// the kitchen. A count on the cation leaves the rest of the charge to hydrogen, so `disodium phosphate` is the hydrogen
/// phosphate. Case, hyphens and brackets do not matter; `anhydrous` is understood.
pub fn formula_of_name(name: &str) -> Option<Formula> {
    let plain: String = name
        .chars()
        .map(|c| {
            if c.is_alphanumeric() || c == '·' {
                c.to_ascii_lowercase()
            } else {
                ' '
            }
        })
        .collect();
    let mut water = None;
    let mut words = Vec::new();
    for word in plain.split_whitespace() {
        match word {
            "anhydrous" | "anhyd" | "dry" | "pure" | "crystalline" => {
                water.get_or_insert(0);
            }
            "mono" => water = Some(1),
            "deca" => water = Some(10),
            _ => match hydrate(word) {
                Some(count) => water = Some(count),
                None => words.push(word),
            },
        }
    }
    let joined = words.join(" ");
    let whole = WHOLE.iter().find(|(whole, _)| *whole == joined);
    let dry = match whole {
        Some((_, formula)) => (*formula).to_owned(),
        None => salt(&words)?,
    };
    let text = match water {
        None => dry,
        Some(0) => anhydrous(&dry),
        Some(count) => format!("{}·{count}H2O", anhydrous(&dry)),
    };
    Formula::parse(&text).ok()
}

fn anhydrous(formula: &str) -> String {
    formula.split('·').next().unwrap_or(formula).to_owned()
}

/// The molecules of water that a word like `pentahydrate` names.
fn hydrate(word: &str) -> Option<u32> {
    let before = word.strip_suffix("hydrate")?;
    if before.is_empty() {
        return Some(1);
    }
    COUNTS
        .iter()
        .find(|(count, _)| *count == before)
        .map(|(_, count)| *count)
}

fn counted(word: &str) -> (Option<u32>, &str) {
    for (prefix, count) in COUNTS {
        if let Some(rest) = word.strip_prefix(prefix)
            && rest.len() > 2
        {
            return (Some(*count), rest);
        }
    }
    (None, word)
}

/// The formula of a salt from the words for its cations, hydrogen and anion.
fn salt(words: &[&str]) -> Option<String> {
    let mut cations: Vec<(&str, Option<u32>)> = Vec::new();
    let mut hydrogen = None;
    let mut anion = None;
    let mut basic = None;
    for word in words {
        if let Some(found) = ANIONS.iter().find(|(name, ..)| name == word) {
            anion = Some(*found);
            if word.starts_with("bi") {
                hydrogen = Some(1);
            }
            continue;
        }
        if let Some(rest) = word.strip_prefix("hydrogen")
            && let Some(found) = ANIONS.iter().find(|(name, ..)| *name == rest)
        {
            anion = Some(*found);
            hydrogen = Some(1);
            continue;
        }
        let (count, rest) = counted(word);
        match rest {
            "hydrogen" | "acid" => hydrogen = Some(count.unwrap_or(1)),
            "basic" => basic = count,
            _ => {
                let (_, symbol) = CATIONS.iter().find(|(name, _)| *name == rest)?;
                cations.push((symbol, count));
            }
        }
    }
    let (_, atoms, charge) = anion?;
    let held = hydrogen.unwrap_or(0);
    let mut left = charge.checked_sub(held)?;
    let mut text = Vec::new();
    let single = cations.len() == 1;
    if cations.is_empty() {
        return None;
    }
    for (symbol, count) in cations {
        let count = match (count, basic) {
            (Some(count), _) => count,
            (None, Some(basic)) if single => basic,
            (None, _) if single => left,
            (None, _) => 1,
        };
        left = left.checked_sub(count)?;
        text.push(format!("({symbol}){count}"));
    }
    let protons = held + left;
    if protons > 0 {
        text.push(format!("H{protons}"));
    }
    text.push(format!("({atoms})"));
    Some(text.concat())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_read_into_formulas() {
        for (name, formula) in [
            ("sodium carbonate", "Na2CO3"),
            ("sodium carbonate decahydrate", "Na2CO3·10H2O"),
            ("Sodium carbonate, monohydrate", "Na2CO3·H2O"),
            ("sodium bicarbonate", "NaHCO3"),
            ("sodium hydrogen carbonate", "NaHCO3"),
            ("disodium hydrogen phosphate dodecahydrate", "Na2HPO4·12H2O"),
            ("disodium phosphate", "Na2HPO4"),
            ("potassium dihydrogen phosphate", "KH2PO4"),
            ("potassium dihydrogen citrate", "KH2C6H5O7"),
            ("trisodium citrate dihydrate", "Na3C6H5O7·2H2O"),
            ("potassium hydrogen phthalate", "KHC8H4O4"),
            ("potassium metabisulfite", "K2S2O5"),
            ("sodium thiosulfate pentahydrate", "Na2S2O3·5H2O"),
            ("ammonium thiosulfate", "(NH4)2S2O3"),
            ("sodium ascorbate", "NaC6H7O6"),
            ("borax decahydrate", "Na2B4O7·10H2O"),
            ("borax, anhydrous", "Na2B4O7"),
            ("citric acid monohydrate", "C6H8O7·H2O"),
            ("chlorogenic acid", "C16H18O9"),
            ("potassium sodium tartrate tetrahydrate", "KNaC4H4O6·4H2O"),
            ("sodium phosphate, dibasic", "Na2HPO4"),
            ("sodium metaborate tetrahydrate", "NaBO2·4H2O"),
        ] {
            assert_eq!(formula_of_name(name), Formula::parse(formula).ok(), "{name}");
        }
        for name in ["rosemary", "sodium", "carbonate", "tetrasodium carbonate", ""] {
            assert_eq!(formula_of_name(name), None, "{name}");
        }
    }
}
