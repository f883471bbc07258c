//! The tables of check values under `tests/reference/`, or those in the folder that `TRAYSIDE_CHECKS` names.
//!
//! Every row is computed by the library. A row that is not understood is a failure like any other. One line is printed for
//! each topic, and one for each row that did not pass.

mod chemistry;
mod csv;
mod optics;
mod quantities;
mod words;

use std::collections::BTreeMap;
use std::fmt;
use std::path::{Path, PathBuf};

use csv::Table;

/// What became of one row.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Outcome {
    /// The library's value lies within the tolerance.
    Passed,
    /// It does not; with what was found.
    Failed(String),
    /// The row asks for something that the runner cannot read or the library cannot compute; with what that is.
    NotUnderstood(String),
}

impl Outcome {
    /// Whether `found` is as near to `expected` as `tolerance` asks.
    pub(crate) fn of(found: f64, expected: f64, tolerance: f64) -> Self {
        // A table rounds its values: half of its last digit must not decide.
        if (found - expected).abs() <= tolerance * (1.0 + 1e-9) + 1e-12 {
            Self::Passed
        } else {
            Self::Failed(format!(
                "found {found:.6}, expected {expected} within {tolerance}"
            ))
        }
    }
}

/// The three kinds of table, told apart by their headers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Chemistry,
    Quantities,
    Optics,
}

impl Kind {
    fn of(table: &Table) -> Option<Self> {
        if table.column(&["composition"]).is_some() && table.column(&["quantity"]).is_some() {
            Some(Self::Chemistry)
        } else if table.column(&["topic"]).is_some() && table.column(&["expected"]).is_some() {
            Some(Self::Optics)
        } else if table.column(&["description"]).is_some()
            && table.column(&["reference_value", "value"]).is_some()
        {
            Some(Self::Quantities)
        } else {
            None
        }
    }
}

#[derive(Default)]
struct Tally {
    passed: u32,
    failed: u32,
    not_understood: u32,
}

impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} passed, {} failed, {} not understood",
            self.passed, self.failed, self.not_understood
        )
    }
}

/// Checks every row of a table: topic, id of the row, outcome.
fn check(name: &str, table: &Table) -> Vec<(String, String, Outcome)> {
    let Some(kind) = Kind::of(table) else {
        let all = table.rows().enumerate();
        return all
            .map(|(at, _)| {
                let why = Outcome::NotUnderstood(format!("the header of {name} is of no known kind"));
                (name.to_owned(), format!("{name}:{}", at + 2), why)
            })
            .collect();
    };
    table
        .rows()
        .enumerate()
        .map(|(at, row)| {
            let id = row.get(&["id"]).filter(|id| !id.is_empty());
            let id = id.map_or_else(|| format!("{name}:{}", at + 2), str::to_owned);
            let (topic, outcome) = match kind {
                Kind::Chemistry => chemistry::check(&row),
                Kind::Quantities => quantities::check(&row),
                Kind::Optics => check_optics(&row),
            };
            (topic, id, outcome)
        })
        .collect()
}

fn check_optics(row: &csv::Row<'_>) -> (String, Outcome) {
    let topic = row.get(&["topic"]).unwrap_or_default();
    let json = |columns: &[&str]| {
        let text = row.get(columns).unwrap_or_default();
        // What is no JSON is passed on as text.
        serde_json::from_str(text).unwrap_or_else(|_| serde_json::Value::String(text.to_owned()))
    };
    let (inputs, expected) = (json(&["inputs", "input"]), json(&["expected"]));
    let outcome = optics::check(
        topic,
        &inputs,
        &expected,
        row.get(&["tolerance"]).unwrap_or_default(),
    );
    (format!("optics {topic}"), outcome)
}

/// The tables: each a name and the text.
fn tables() -> Vec<(String, String)> {
    let own = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference");
    #[expect(clippy::disallowed_methods, reason = "tests stand outside the host")]
    let folder = std::env::var("TRAYSIDE_CHECKS").map_or(own, PathBuf::from);
    let mut found = Vec::new();
    gather(&folder, &mut found);
    assert!(!found.is_empty(), "no table in {}", folder.display());
    found.sort();
    found
        .into_iter()
        .map(|path| {
            #[expect(clippy::disallowed_methods, reason = "tests stand outside the host")]
            let text =
                std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
            let name = path.strip_prefix(&folder).unwrap_or(&path);
            (name.display().to_string(), text)
        })
        .collect()
}

fn gather(folder: &Path, found: &mut Vec<PathBuf>) {
    let entries = std::fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    for entry in entries {
        let path = entry.unwrap().path();
        if path.is_dir() {
            gather(&path, found);
        } else if path
            .extension()
            .is_some_and(|extension| extension.eq_ignore_ascii_case("csv"))
        {
            found.push(path);
        }
    }
}

#[test]
fn every_row_is_understood_and_passes() {
    let mut tallies: BTreeMap<String, Tally> = BTreeMap::new();
    let mut wrong = Vec::new();
    for (name, text) in tables() {
        let table = Table::parse(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
        for (topic, id, outcome) in check(&name, &table) {
            let tally = tallies.entry(topic.clone()).or_default();
            match outcome {
                Outcome::Passed => tally.passed += 1,
                Outcome::Failed(why) => {
                    tally.failed += 1;
                    wrong.push(format!("  {topic}: {id}: failed: {why}"));
                }
                Outcome::NotUnderstood(why) => {
                    tally.not_understood += 1;
                    wrong.push(format!("  {topic}: {id}: not understood: {why}"));
                }
            }
        }
    }
    for (topic, tally) in &tallies {
        println!("{topic}: {tally}");
    }
    for line in &wrong {
        println!("{line}");
    }
    assert!(wrong.is_empty(), "{} rows did not pass", wrong.len());
}
