//! The one list of sources, and the texts of the hazard statements.

use std::collections::BTreeMap;
use std::fmt;

use serde::Deserialize;

/// What sort of thing a source is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum SourceKind {
    /// A published standard or regulation.
    Standard,
    /// A handbook or textbook.
    Handbook,
    /// A paper in a journal.
    Paper,
    /// A page or leaflet of an agency.
    Agency,
    /// A library or database that was run.
    Software,
    /// Worked out here, in the way that the title says.
    Derivation,
    /// Common practice, for which no source was found.
    Practice,
    /// From memory, unverified.
    Memory,
    /// The notebook itself.
    Notebook,
}

/// A work that figures are cited from.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Who wrote or issued it, if anyone did.
    #[serde(default)]
    pub by: Option<String>,
    /// What it is called.
    pub title: String,
    /// When it appeared, if it did.
    #[serde(default)]
    pub year: Option<u16>,
    /// What sort of thing it is.
    pub kind: SourceKind,
    /// Where in it, its identifier, or what was taken from it.
    #[serde(default)]
    pub note: Option<String>,
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(by) = &self.by {
            write!(f, "{by}: ")?;
        }
        f.write_str(&self.title)?;
        if let Some(year) = self.year {
            write!(f, " ({year})")?;
        }
        if let Some(note) = &self.note {
            write!(f, ", {note}")?;
        }
        Ok(())
    }
}

/// The bibliography: keys to sources.
pub(super) type Bibliography = BTreeMap<String, Source>;

/// The key under which figures from a notebook are cited.
pub const NOTEBOOK_SOURCE: &str = "notebook";

/// The texts of the hazard statements, as the data file holds them.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Statements {
    pub(super) source: String,
    pub(super) statements: BTreeMap<String, String>,
}
