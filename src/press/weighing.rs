//! A weighing-out sheet as the data of its template.

use serde::Serialize;

use super::card;
use super::fault::PressFault;
use crate::views::weighing::{Heads, Sheet};

/// The template.
pub(super) const MAIN: &str = "templates/press/weighing.typ";

/// What the template reads from `/data.json`; lengths in mm.
#[derive(Serialize)]
struct Data<'a> {
    language: &'a str,
    width: f64,
    height: f64,
    heads: &'a Heads,
    sheet: serde_json::Value,
}

/// The bytes of the data file for pages of a size.
pub(super) fn data(sheet: &Sheet, width_mm: f64, height_mm: f64) -> Result<Vec<u8>, PressFault> {
    let value = serde_json::to_value(sheet).map(|mut value| {
        card::clean(&mut value);
        value
    });
    let bytes = value.and_then(|value| {
        serde_json::to_vec(&Data {
            language: card::language(&sheet.language),
            width: width_mm,
            height: height_mm,
            heads: &sheet.heads,
            sheet: value,
        })
    });
    bytes.map_err(|error| PressFault::Layout {
        message: format!("the sheet cannot be written as data: {error}"),
    })
}
