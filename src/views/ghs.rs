//! Signal words and pictograms that go with hazard statements.
//!
//! Source: United Nations, Globally Harmonized System of Classification and Labelling of Chemicals (GHS), annex 1 for the
//! word and picture of each statement, 1.4.10.5.3 for which gives way to which; read from memory, unverified.

use serde::Serialize;

/// A pictogram, by what it shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Pictogram {
    /// Toxic at once.
    Skull,
    /// Burns skin, eyes and metal.
    Corrosion,
    /// Harms over time, or the unborn, or makes allergic by breathing.
    HealthHazard,
    /// Harms or irritates.
    Exclamation,
    /// Burns.
    Flame,
    /// Makes other things burn.
    FlameOverCircle,
    /// Harms what lives in water.
    Environment,
}

/// A signal word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Signal {
    Warning,
    Danger,
}

/// What goes with a statement.
#[derive(Debug, Clone, Copy)]
struct Row {
    /// How the code begins.
    code: &'static str,
    signal: Option<Signal>,
    pictogram: Option<Pictogram>,
    /// Part of the mass from which a mixture has to name it: GHS table 1.5.1.
    from: f64,
}

const fn row(code: &'static str, signal: Option<Signal>, pictogram: Option<Pictogram>, from: f64) -> Row {
    Row {
        code,
        signal,
        pictogram,
        from,
    }
}

const DANGER: Option<Signal> = Some(Signal::Danger);
const WARNING: Option<Signal> = Some(Signal::Warning);

/// A statement has several categories at times; the word is then that of the worse one.
const ROWS: &[Row] = &[
    row("H225", DANGER, Some(Pictogram::Flame), 0.01),
    row("H226", WARNING, Some(Pictogram::Flame), 0.01),
    row("H272", DANGER, Some(Pictogram::FlameOverCircle), 0.01),
    row("H290", WARNING, Some(Pictogram::Corrosion), 0.01),
    row("H301", DANGER, Some(Pictogram::Skull), 0.01),
    row("H302", WARNING, Some(Pictogram::Exclamation), 0.01),
    row("H311", DANGER, Some(Pictogram::Skull), 0.01),
    row("H312", WARNING, Some(Pictogram::Exclamation), 0.01),
    row("H314", DANGER, Some(Pictogram::Corrosion), 0.01),
    row("H315", WARNING, Some(Pictogram::Exclamation), 0.01),
    row("H317", WARNING, Some(Pictogram::Exclamation), 0.001),
    row("H318", DANGER, Some(Pictogram::Corrosion), 0.01),
    row("H319", WARNING, Some(Pictogram::Exclamation), 0.01),
    row("H330", DANGER, Some(Pictogram::Skull), 0.01),
    row("H331", DANGER, Some(Pictogram::Skull), 0.01),
    row("H332", WARNING, Some(Pictogram::Exclamation), 0.01),
    row("H334", DANGER, Some(Pictogram::HealthHazard), 0.001),
    row("H335", WARNING, Some(Pictogram::Exclamation), 0.01),
    row("H336", WARNING, Some(Pictogram::Exclamation), 0.01),
    row("H340", DANGER, Some(Pictogram::HealthHazard), 0.001),
    row("H341", WARNING, Some(Pictogram::HealthHazard), 0.001),
    row("H350", DANGER, Some(Pictogram::HealthHazard), 0.001),
    row("H351", WARNING, Some(Pictogram::HealthHazard), 0.001),
    row("H360", DANGER, Some(Pictogram::HealthHazard), 0.001),
    row("H361", WARNING, Some(Pictogram::HealthHazard), 0.001),
    row("H372", DANGER, Some(Pictogram::HealthHazard), 0.01),
    row("H373", WARNING, Some(Pictogram::HealthHazard), 0.01),
    row("H400", WARNING, Some(Pictogram::Environment), 0.01),
    row("H410", WARNING, Some(Pictogram::Environment), 0.01),
    row("H411", None, Some(Pictogram::Environment), 0.01),
    row("H412", None, None, 0.01),
];

/// Statements that say less than another one that is there too.
const SAID_BY: &[(&str, &[&str])] = &[
    ("H315", &["H314"]),
    ("H318", &["H314"]),
    ("H319", &["H314", "H318"]),
    ("H341", &["H340"]),
    ("H351", &["H350"]),
    ("H361", &["H360"]),
    ("H373", &["H372"]),
    ("H400", &["H410"]),
];

/// What a bottle has to say.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Statements {
    pub(super) codes: Vec<String>,
    pub(super) signal: Option<Signal>,
    pub(super) pictograms: Vec<Pictogram>,
}

/// The statements of a mixture from those of its materials, each with the part of the mass that the material has, where
/// that is known. A material is named from the limit of GHS table 1.5.1 on; that is stricter than the class of the
/// mixture, which only a test or an expert can say.
pub(super) fn of<'a>(stated: impl Iterator<Item = (&'a str, Option<f64>)>) -> Statements {
    let mut codes: Vec<&str> = stated
        .filter(|(code, part)| part.is_none_or(|part| part >= find(code).map_or(0.0, |row| row.from)))
        .map(|(code, _)| code)
        .collect();
    codes.sort_unstable();
    codes.dedup();
    let has = |start: &str| codes.iter().any(|code| code.starts_with(start));
    let said: Vec<&str> = codes
        .iter()
        .copied()
        .filter(|code| {
            let by = SAID_BY.iter().find(|(less, _)| code.starts_with(less));
            !by.is_some_and(|(_, more)| more.iter().any(|more| has(more)))
        })
        .collect();
    let rows: Vec<&Row> = said.iter().filter_map(|code| find(code)).collect();
    let mut pictograms: Vec<Pictogram> = rows
        .iter()
        .filter_map(|row| row.pictogram)
        .filter(|pictogram| *pictogram != Pictogram::Exclamation)
        .collect();
    if rows.iter().any(|row| marked(row, &pictograms, &has)) {
        pictograms.push(Pictogram::Exclamation);
    }
    pictograms.sort_unstable();
    pictograms.dedup();
    Statements {
        signal: rows.iter().filter_map(|row| row.signal).max(),
        pictograms,
        codes: said.into_iter().map(str::to_owned).collect(),
    }
}

/// Whether a statement asks for the exclamation mark: not beside a skull, not for skin and eyes beside corrosion, not for
/// skin and eyes beside an allergy of the lungs.
fn marked(row: &Row, others: &[Pictogram], has: &dyn Fn(&str) -> bool) -> bool {
    let skin_or_eyes = matches!(row.code, "H315" | "H317" | "H319");
    let corrosion = has("H314") || has("H318");
    row.pictogram == Some(Pictogram::Exclamation)
        && !others.contains(&Pictogram::Skull)
        && !(skin_or_eyes && (corrosion && row.code != "H317" || has("H334")))
}

fn find(code: &str) -> Option<&'static Row> {
    ROWS.iter().find(|row| code.starts_with(row.code))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pantry::Pantry;

    fn signs(codes: &[(&str, Option<f64>)]) -> Statements {
        of(codes.iter().copied())
    }

    #[test]
    fn every_statement_of_the_pantry_has_its_row() {
        let pantry = Pantry::standard();
        for material in pantry.materials() {
            for code in &material.hazards {
                assert!(find(code).is_some(), "{code} of {}", material.id);
            }
        }
    }

    #[test]
    fn the_worse_word_and_picture_stand_for_both() {
        let burns = signs(&[("H314", None), ("H319", None), ("H290", None), ("H302", None)]);
        assert_eq!(burns.codes, ["H290", "H302", "H314"]);
        assert_eq!(burns.signal, Some(Signal::Danger));
        assert_eq!(burns.pictograms, [Pictogram::Corrosion, Pictogram::Exclamation]);
        let poison = signs(&[("H301", None), ("H315", None)]);
        assert_eq!(poison.pictograms, [Pictogram::Skull]);
        let lungs = signs(&[("H334", None), ("H319", None)]);
        assert_eq!(lungs.pictograms, [Pictogram::HealthHazard]);
        let water = signs(&[("H411", None)]);
        assert_eq!(
            (water.signal, water.pictograms),
            (None, vec![Pictogram::Environment])
        );
    }

    #[test]
    fn what_is_thin_is_not_named() {
        assert_eq!(signs(&[("H319", Some(0.009))]), Statements::default());
        assert_eq!(signs(&[("H319", Some(0.01))]).signal, Some(Signal::Warning));
        assert_eq!(signs(&[("H360FD", Some(0.002))]).signal, Some(Signal::Danger));
        assert_eq!(signs(&[]), Statements::default());
    }
}
