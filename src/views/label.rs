//! A bottle label: all that a second container must say for itself.

use serde::Serialize;

use super::card::Line;
use super::ghs::Pictogram;

/// One label, ready to be set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Label {
    /// The id of the batch, or of the recipe where the label is to be filled in.
    pub id: String,
    /// The language of the fixed words, as an ISO 639-1 code.
    pub language: String,
    /// What it is, in plain words.
    pub title: String,
    /// What it is for, such as `fixer`.
    pub role: String,
    /// What is in it.
    pub contents: Vec<Content>,
    /// Volume, when and by whom it was mixed, when it is dead; an empty text is room to write in.
    pub lines: Vec<Line>,
    /// The stronger of the signal words; empty where nothing in it is classified.
    pub signal: String,
    /// The pictograms of what is classified.
    pub pictograms: Vec<Pictogram>,
    /// Hazard statements.
    pub hazards: Vec<String>,
    /// What must never happen to it: the heavy safety lines.
    pub warnings: Vec<String>,
    /// Not for food or drink.
    pub not_food: String,
    /// Where it goes when it is spent; empty where nobody has said.
    pub waste: String,
    /// Small print at the foot: batch id, notebook, tool and version.
    pub stamp: String,
}

/// A material in a bottle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Content {
    /// The material with its form, as written.
    pub name: String,
    /// Its chemical name, where that is another; else empty.
    pub chemical: String,
    /// Its formula with the water of crystallisation; empty where it has none.
    pub formula: String,
    /// Such as `200 g/l`; empty where it is not known.
    pub strength: String,
}

/// How labels lie on a sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LabelGrid {
    /// Label width, mm.
    pub width_mm: f64,
    /// Label height, mm.
    pub height_mm: f64,
    /// Sheet width, mm.
    pub sheet_width_mm: f64,
    /// Sheet height, mm.
    pub sheet_height_mm: f64,
    /// How many stand abreast; as many as go where nothing is said.
    pub columns: Option<usize>,
    /// How many stand below one another; as many as go where nothing is said.
    pub rows: Option<usize>,
    /// Between two abreast, mm.
    pub column_gap_mm: f64,
    /// Between two below one another, mm.
    pub row_gap_mm: f64,
    /// From the left edge of the sheet to the first column, mm; in the middle where nothing is said.
    pub left_mm: Option<f64>,
    /// From the upper edge of the sheet to the first row, mm; in the middle where nothing is said.
    pub top_mm: Option<f64>,
    /// Places that are used up already, counted along the rows.
    pub used: usize,
    /// Whether each has a fine line round it, to be cut along: for paper that is not cut beforehand.
    pub outlined: bool,
}
