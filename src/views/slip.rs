//! Blank log slips: what a sheet's entry in the log must hold, to be written by hand under the red lamp.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::notebook::{Notebook, SlipPress};

use super::card::SheetLayout;
use super::common::stamp;
use super::words::{Group as _, words_of};

/// As many slips as fill a few sheets.
const COUNT: u32 = 12;
/// A slip, mm: four on A4 with room for a printer's margin.
const SIZE_MM: (f64, f64) = (98.0, 140.0);

/// Numbered slips, all alike.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Slips {
    /// The language of the fixed words, as an ISO 639-1 code.
    pub language: String,
    /// The number of each.
    pub numbers: Vec<u32>,
    /// What stands on each, by name: the heads of its lines and boxes.
    pub words: BTreeMap<&'static str, &'static str>,
    /// Small print at the foot.
    pub stamp: String,
}

/// The slips that a notebook asks for.
pub fn slips(notebook: &Notebook) -> Slips {
    let usual = SlipPress::default();
    let asked = notebook.settings.press.slips.as_ref().unwrap_or(&usual);
    let words = words_of(notebook);
    let first = asked.from.get().map_or(1, |from| from.value);
    let count = asked.count.get().map_or(COUNT, |count| count.value);
    Slips {
        language: words.code.to_owned(),
        numbers: (first..first.saturating_add(count)).collect(),
        words: words.slip.all().into_iter().collect(),
        stamp: stamp(notebook, words, None),
    }
}

/// How a notebook wants its slips laid: 98 × 140 mm on A4 (ISO 216), cut apart without a border, where it says nothing.
pub fn slip_layout(notebook: &Notebook) -> SheetLayout {
    let asked = notebook.settings.press.slips.as_ref();
    let size = asked.and_then(|slips| slips.size.get()).map(|size| &size.value);
    let sheet = asked.and_then(|slips| slips.sheet.get()).map(|size| &size.value);
    let (card_width_mm, card_height_mm) = size.map_or(SIZE_MM, |size| {
        (size.width.millimetres(), size.height.millimetres())
    });
    let (sheet_width_mm, sheet_height_mm) = sheet.map_or((210.0, 297.0), |size| {
        (size.width.millimetres(), size.height.millimetres())
    });
    SheetLayout {
        card_width_mm,
        card_height_mm,
        sheet_width_mm,
        sheet_height_mm,
        lamination_mm: 0.0,
        bleed_mm: 0.0,
        two_sided: true,
        flip: None,
        distance_mm: 600.0,
    }
}
