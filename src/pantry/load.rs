//! The data files read into typed materials, refusing whatever has no source or an unknown word.

use std::collections::BTreeMap;
use std::fmt;

use serde::Deserialize;

use super::bibliography::{Bibliography, Statements};
use super::figure::{Figure, Status};
use super::form::Form;
use super::formula::Formula;
use super::material::{Basis, Material, Share, Solubility};
use super::property::{Properties, Property};

/// Why a data file is refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LoadError {
    message: String,
}

impl LoadError {
    pub(super) fn new(message: impl Into<String>) -> Self {
        Self {
            message: message.into(),
        }
    }
}

impl fmt::Display for LoadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for LoadError {}

/// A name that stands for several forms of one material.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Family {
    pub(super) name: String,
    #[serde(default)]
    pub(super) also: BTreeMap<String, Vec<String>>,
    pub(super) source: String,
}

/// A word that may mean several materials.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ambiguity {
    #[serde(default)]
    pub(super) also: Vec<String>,
    pub(super) means: Vec<String>,
    pub(super) source: String,
}

/// What the files hold, before it is indexed.
#[derive(Debug, Default)]
pub(super) struct Stock {
    pub(super) materials: Vec<Material>,
    pub(super) families: BTreeMap<String, Family>,
    pub(super) ambiguous: BTreeMap<String, Ambiguity>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(default)]
    families: BTreeMap<String, Family>,
    #[serde(default)]
    ambiguous: BTreeMap<String, Ambiguity>,
    #[serde(default)]
    materials: BTreeMap<String, MaterialRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FigureRow {
    low: Option<f64>,
    best: f64,
    high: Option<f64>,
    status: String,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ShareRow {
    grams_per_litre: Option<FigureRow>,
    mass_fraction: Option<FigureRow>,
    #[serde(default)]
    equivalents: bool,
    extracted: Option<FigureRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SolubilityRow {
    celsius: f64,
    grams_per_kilogram: FigureRow,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct HazardRow {
    statements: Vec<String>,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct MaterialRow {
    name: String,
    #[serde(default)]
    also: BTreeMap<String, Vec<String>>,
    #[serde(default)]
    symbols: Vec<String>,
    formula: Option<String>,
    #[serde(default)]
    contains: BTreeMap<String, ShareRow>,
    form: Option<String>,
    of: Option<String>,
    purity: Option<FigureRow>,
    density: Option<FigureRow>,
    spoon: Option<FigureRow>,
    tablet_share: Option<FigureRow>,
    #[serde(default)]
    solubility: Vec<SolubilityRow>,
    electrons: Option<FigureRow>,
    keeps_back: Option<FigureRow>,
    hazards: Option<HazardRow>,
    #[serde(default)]
    properties: Vec<String>,
    #[serde(default)]
    needs_strength: bool,
    note: Option<String>,
    sources: Vec<String>,
}

/// Reads one YAML file of any of the shapes here.
pub(super) fn yaml<T: serde::de::DeserializeOwned>(what: &str, text: &str) -> Result<T, LoadError> {
    serde_yaml::from_str(text).map_err(|error| LoadError::new(format!("{what}: {error}")))
}

/// The properties that `words` name.
pub(super) fn properties(what: &str, words: &[String]) -> Result<Properties, LoadError> {
    let named = words.iter().map(|word| {
        Property::from_word(word).ok_or_else(|| LoadError::new(format!("`{what}`: `{word}` is no property")))
    });
    named.collect()
}

/// Reads the files of materials, each a name and its text.
pub(super) fn stock(
    files: &[(&str, &str)],
    sources: &Bibliography,
    statements: &Statements,
) -> Result<Stock, LoadError> {
    let reader = Reader { sources, statements };
    let mut stock = Stock::default();
    for (name, text) in files {
        let file: File = yaml(name, text)?;
        for (id, family) in file.families {
            reader.cited(&id, &family.source)?;
            if stock.families.insert(id.clone(), family).is_some() {
                return Err(LoadError::new(format!("family `{id}` stands twice")));
            }
        }
        for (word, ambiguity) in file.ambiguous {
            reader.cited(&word, &ambiguity.source)?;
            if stock.ambiguous.insert(word.clone(), ambiguity).is_some() {
                return Err(LoadError::new(format!("the word `{word}` stands twice")));
            }
        }
        for (id, row) in file.materials {
            stock.materials.push(reader.material(&id, row)?);
        }
    }
    Ok(stock)
}

struct Reader<'a> {
    sources: &'a Bibliography,
    statements: &'a Statements,
}

impl Reader<'_> {
    fn cited(&self, id: &str, source: &str) -> Result<(), LoadError> {
        if self.sources.contains_key(source) {
            Ok(())
        } else {
            Err(LoadError::new(format!(
                "`{id}` cites `{source}`, which is not in the bibliography"
            )))
        }
    }

    fn figure(&self, id: &str, row: FigureRow) -> Result<Figure, LoadError> {
        self.cited(id, &row.source)?;
        let status = Status::from_word(&row.status)
            .ok_or_else(|| LoadError::new(format!("`{id}`: `{}` is no status", row.status)))?;
        let low = row.low.unwrap_or(row.best);
        let high = row.high.unwrap_or(row.best);
        Figure::new(low, row.best, high, status, row.source)
            .ok_or_else(|| LoadError::new(format!("`{id}`: {low}, {}, {high} is no range", row.best)))
    }

    /// A figure that must lie from `least` to `most`.
    fn within(
        &self,
        id: &str,
        row: Option<FigureRow>,
        least: f64,
        most: f64,
    ) -> Result<Option<Figure>, LoadError> {
        let Some(row) = row else { return Ok(None) };
        let figure = self.figure(id, row)?;
        if figure.low() < least || figure.high() > most {
            return Err(LoadError::new(format!(
                "`{id}`: {} to {} is outside {least} to {most}",
                figure.low(),
                figure.high()
            )));
        }
        Ok(Some(figure))
    }

    fn share(&self, id: &str, material: String, row: ShareRow) -> Result<Share, LoadError> {
        let (amount, basis) = match (row.grams_per_litre, row.mass_fraction) {
            (Some(amount), None) => (self.within(id, Some(amount), 0.0, 2000.0)?, Basis::GramsPerLitre),
            (None, Some(amount)) => (self.within(id, Some(amount), 0.0, 1.0)?, Basis::MassFraction),
            _ => (None, Basis::MassFraction),
        };
        let amount = amount.ok_or_else(|| {
            LoadError::new(format!(
                "`{id}`: its share of `{material}` needs exactly one of `grams_per_litre` and `mass_fraction`"
            ))
        })?;
        Ok(Share {
            material,
            amount,
            basis,
            equivalents: row.equivalents,
            extracted: self.within(id, row.extracted, 0.0, 1.0)?,
        })
    }

    fn material(&self, id: &str, row: MaterialRow) -> Result<Material, LoadError> {
        let Some(first) = row.sources.first() else {
            return Err(LoadError::new(format!("`{id}` has no source")));
        };
        for source in &row.sources {
            self.cited(id, source)?;
        }
        let mut material = Material::new(id, row.name, first.clone());
        material.sources = row.sources;
        material.also = row.also;
        material.symbols = row.symbols;
        if let Some(text) = row.formula {
            let formula = Formula::parse(&text);
            material.formula = Some(formula.map_err(|error| LoadError::new(format!("`{id}`: {error}")))?);
        }
        for (constituent, share) in row.contains {
            material.contains.push(self.share(id, constituent, share)?);
        }
        if let Some(word) = row.form {
            material.form = Some(
                Form::from_word(&word)
                    .ok_or_else(|| LoadError::new(format!("`{id}`: `{word}` is no form")))?,
            );
        }
        material.of = row.of;
        material.purity = self.within(id, row.purity, 0.0, 1.0)?;
        material.density = self.within(id, row.density, 0.5, 3.0)?;
        material.spoon = self.within(id, row.spoon, 0.05, 25.0)?;
        material.tablet_share = self.within(id, row.tablet_share, 0.0, 1.0)?;
        for point in row.solubility {
            material.solubility.push(Solubility {
                celsius: point.celsius,
                grams_per_kilogram: self.figure(id, point.grams_per_kilogram)?,
            });
        }
        if !material.solubility.is_sorted_by(|a, b| a.celsius < b.celsius) {
            return Err(LoadError::new(format!(
                "`{id}`: solubility must stand by rising temperature"
            )));
        }
        material.electrons = self.within(id, row.electrons, 0.0, 100.0)?;
        material.keeps_back = self.within(id, row.keeps_back, 0.0, 20.0)?;
        if let Some(hazards) = row.hazards {
            self.cited(id, &hazards.source)?;
            for code in &hazards.statements {
                if !self.statements.statements.contains_key(code) {
                    return Err(LoadError::new(format!(
                        "`{id}`: the hazard statement `{code}` has no text"
                    )));
                }
            }
            material.hazards = hazards.statements;
            material.hazards_source = Some(hazards.source);
        }
        material.properties = properties(id, &row.properties)?;
        material.needs_strength = row.needs_strength;
        material.note = row.note;
        Ok(material.with_derived_properties())
    }
}
