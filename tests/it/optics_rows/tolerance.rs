//! How near a value must come, and the comparison.

use serde_json::{Map, Value};

/// What may stand between a value and its reference.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Rule {
    Exact,
    Relative(f64),
    Absolute(f64),
}

impl Rule {
    pub(crate) fn allows(self, found: f64, expected: f64) -> bool {
        let off = (found - expected).abs();
        let edge = 1.0 + 1e-9;
        match self {
            // Binary fractions are not to blame.
            Self::Exact => off <= 1e-9 * expected.abs().max(1.0),
            Self::Relative(share) if expected == 0.0 => off <= 1e-9_f64.max(share * 1e-9),
            Self::Relative(share) => off <= share * expected.abs() * edge,
            Self::Absolute(most) => off <= most * edge + 1e-12,
        }
    }
}

/// The rules of a row: one for all, and some for certain fields.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Tolerance {
    default: Option<Rule>,
    /// The beginning of a field's name, its rule.
    prefixes: Vec<(String, Rule)>,
    /// A word within a field's name, its rule.
    words: Vec<(String, Rule)>,
}

/// The rule where a row states none for a field.
const UNSTATED: Rule = Rule::Relative(1e-4);

impl Tolerance {
    pub(crate) fn read(text: &str) -> Self {
        match serde_json::from_str::<Value>(text) {
            Ok(Value::Object(map)) => Self::from_object(&map),
            Ok(Value::Number(number)) => Self {
                default: number.as_f64().map(Rule::Absolute),
                ..Self::default()
            },
            Ok(Value::String(text)) => Self::from_prose(&text),
            _ => Self::from_prose(text),
        }
    }

    fn from_object(map: &Map<String, Value>) -> Self {
        let mut read = Self::default();
        for (key, value) in map {
            let rule = match (key.as_str(), value) {
                ("rel", value) => value.as_f64().map(Rule::Relative),
                (_, Value::Number(number)) => number.as_f64().map(Rule::Absolute),
                (_, Value::String(text)) => Self::from_prose(text).default,
                _ => None,
            };
            let Some(rule) = rule else { continue };
            match key.as_str() {
                "abs" | "rel" | "default" | "*" | "all" => read.default = Some(rule),
                _ => read.prefixes.push((key.clone(), rule)),
            }
        }
        read.prefixes.sort_by_key(|(key, _)| std::cmp::Reverse(key.len()));
        read
    }

    /// `rel 0.01 (range +-1, speed rel 0.02)`: pieces, each a rule after the word of the fields that it is for.
    fn from_prose(text: &str) -> Self {
        let mut read = Self::default();
        let text = text
            .replace("+-", " +- ")
            .replace('±', " +- ")
            .replace("+/-", " +- ");
        for piece in text.split([',', ';', '(', ')']) {
            let mut words: Vec<&str> = Vec::new();
            let mut tokens = piece
                .split([' ', ':', '=', '\t'])
                .filter(|token| !token.is_empty());
            let mut rule = None;
            while let Some(token) = tokens.next() {
                rule = match token.to_lowercase().as_str() {
                    "exact" | "exactly" => Some(Rule::Exact),
                    "rel" | "relative" => tokens.next().and_then(figure).map(Rule::Relative),
                    "abs" | "absolute" | "+-" => tokens.next().and_then(figure).map(Rule::Absolute),
                    _ => match (token.strip_suffix('%').and_then(figure), figure(token)) {
                        (Some(percent), _) => Some(Rule::Relative(percent / 100.0)),
                        (None, Some(most)) => Some(Rule::Absolute(most)),
                        (None, None) => {
                            words.push(token);
                            None
                        }
                    },
                };
                if rule.is_some() {
                    break;
                }
            }
            match (rule, words.as_slice()) {
                (Some(rule), []) => read.default = read.default.or(Some(rule)),
                (Some(rule), words) => {
                    read.words
                        .extend(words.iter().map(|word| (word.to_lowercase(), rule)));
                }
                (None, _) => {}
            }
        }
        read
    }

    pub(crate) fn of(&self, field: &str) -> Rule {
        let lower = field.to_lowercase();
        let by_prefix = self.prefixes.iter().find(|(prefix, _)| field.starts_with(prefix));
        let by_word = self.words.iter().find(|(word, _)| speaks_of(&lower, word));
        let rule = by_prefix.or(by_word).map(|(_, rule)| *rule);
        rule.or(self.default).unwrap_or(UNSTATED)
    }
}

fn speaks_of(field: &str, word: &str) -> bool {
    match word {
        "money" | "cost" | "costs" | "price" | "prices" => ["cost", "total", "price", "money"]
            .iter()
            .any(|sign| field.contains(sign)),
        _ => field.contains(word),
    }
}

fn figure(text: &str) -> Option<f64> {
    text.trim_end_matches('.')
        .parse()
        .ok()
        .filter(|value: &f64| value.is_finite())
}

/// Fields that are remarks.
const REMARKS: [&str; 3] = ["same_as_ratio", "min_rule", "max_rule"];

/// What is wrong with a row's fields: a field that is not known, or one that is off.
#[derive(Debug, PartialEq)]
pub(crate) enum Mismatch {
    Unknown(String),
    Off(String),
}

/// Compares every expected field. `also` may allow a field what the row's own rule does not.
pub(crate) fn compare(
    found: &Map<String, Value>,
    expected: &Map<String, Value>,
    tolerance: &Tolerance,
    also: &dyn Fn(&str, f64, f64) -> bool,
) -> Result<(), Mismatch> {
    for (field, expected) in expected {
        if REMARKS.contains(&field.as_str()) {
            continue;
        }
        let found = found.get(field).ok_or_else(|| Mismatch::Unknown(field.clone()))?;
        value(field, found, expected, tolerance, also)?;
    }
    Ok(())
}

fn value(
    field: &str,
    found: &Value,
    expected: &Value,
    tolerance: &Tolerance,
    also: &dyn Fn(&str, f64, f64) -> bool,
) -> Result<(), Mismatch> {
    let off = || {
        Err(Mismatch::Off(format!(
            "`{field}` is {found}, expected {expected}"
        )))
    };
    match (found, expected) {
        (Value::Object(found), Value::Object(expected)) => compare(found, expected, tolerance, also),
        (Value::Array(all), Value::Array(wanted)) => {
            if all.len() != wanted.len() {
                return off();
            }
            let mut pairs = all.iter().zip(wanted);
            pairs.try_for_each(|(found, expected)| value(field, found, expected, tolerance, also))
        }
        (Value::Number(a), Value::Number(b)) => {
            let (Some(a), Some(b)) = (a.as_f64(), b.as_f64()) else {
                return off();
            };
            let a = if field.to_lowercase().starts_with("azimuth") {
                // The nearest of the same directions.
                a - ((a - b) / 360.0).round() * 360.0
            } else {
                a
            };
            if tolerance.of(field).allows(a, b) || also(field, a, b) {
                Ok(())
            } else {
                off()
            }
        }
        (found, expected) if found == expected => Ok(()),
        _ => off(),
    }
}

#[test]
fn rules_are_read_from_words_and_objects() {
    let prose = Tolerance::read("rel 0.01 (range +-1, speed rel 0.02)");
    assert_eq!(prose.of("k"), Rule::Relative(0.01));
    assert_eq!(prose.of("ISO_range"), Rule::Absolute(1.0));
    assert_eq!(prose.of("paper_speed"), Rule::Relative(0.02));
    let money = Tolerance::read("exact counts, money 0.01");
    assert_eq!(money.of("sheets"), Rule::Exact);
    assert_eq!(money.of("used_cost_per_sheet"), Rule::Absolute(0.01));
    let object = Tolerance::read(r#"{"abs": 0.002, "density_invert_srgb": 0.1, "ols": "rel 1e-3"}"#);
    assert_eq!(object.of("linear"), Rule::Absolute(0.002));
    assert_eq!(object.of("density_invert_srgb"), Rule::Absolute(0.1));
    assert_eq!(object.of("ols_p"), Rule::Relative(1e-3));
    assert_eq!(Tolerance::read("0.5").of("x"), Rule::Absolute(0.5));
    let long = "exact (a schedule is valid only if it satisfies every constraint; smaller is impossible)";
    assert_eq!(Tolerance::read(long).of("makespan"), Rule::Exact);
}
