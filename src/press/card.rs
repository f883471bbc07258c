//! Cards as the data of a template: JSON bytes, never source text.

use serde::Serialize;
use serde_json::Value;

use super::cap_heights::CapHeights;
use super::fault::PressFault;
use super::sheet::Sheet;
use crate::views::card::{Card, SheetLayout};

/// What a template reads from `/data.json`; lengths in mm.
#[derive(Serialize)]
struct Data<'a> {
    title: String,
    language: &'a str,
    card_width: f64,
    card_height: f64,
    cards: Vec<Value>,
    sheets: &'a [Sheet],
}

/// The bytes of the data file of these sides.
pub(super) fn data(cards: &[Card], layout: &SheetLayout, sheets: &[Sheet]) -> Result<Vec<u8>, PressFault> {
    let bytes = cards
        .iter()
        .enumerate()
        .map(|(index, side)| value(side, index, layout))
        .collect::<Result<Vec<_>, _>>()
        .and_then(|values| {
            serde_json::to_vec(&Data {
                title: title(cards),
                language: cards.first().map_or("und", |card| language(&card.language)),
                card_width: layout.card_width_mm,
                card_height: layout.card_height_mm,
                cards: values,
                sheets,
            })
        });
    bytes.map_err(|error| PressFault::Layout {
        message: format!("the card cannot be written as data: {error}"),
    })
}

/// The bytes of a data file.
pub(super) fn bytes(data: &impl Serialize) -> Result<Vec<u8>, PressFault> {
    let bytes = serde_json::to_value(data).and_then(|mut value| {
        clean(&mut value);
        serde_json::to_vec(&value)
    });
    bytes.map_err(|error| PressFault::Layout {
        message: format!("this cannot be written as data: {error}"),
    })
}

fn value(card: &Card, index: usize, layout: &SheetLayout) -> Result<Value, serde_json::Error> {
    let mut value = serde_json::to_value(card)?;
    clean(&mut value);
    if let Value::Object(fields) = &mut value {
        fields.insert("index".to_owned(), index.into());
        fields.insert("bleed".to_owned(), layout.bleed_mm.into());
        fields.insert(
            "caps".to_owned(),
            serde_json::to_value(CapHeights::at(layout.distance_mm))?,
        );
        // The notches are cut through the card: on a back they stand at the other end of the edge.
        fields.insert("is_back".to_owned(), is_back(card, layout).into());
        fields.insert("language".to_owned(), language(&card.language).into());
        // A document and a heading must have words: PDF/UA-1 refuses empty ones.
        if card.title.trim().is_empty() {
            fields.insert("title".to_owned(), card.id.clone().into());
        }
    }
    Ok(value)
}

/// Whether a side is printed behind another.
pub(super) fn is_back(side: &Card, layout: &SheetLayout) -> bool {
    layout.two_sided && side.side.is_some_and(|side| side.number % 2 == 0)
}

/// Takes out what is not text: control characters, byte order marks and non-characters, which PDF/A forbids.
pub(super) fn clean(value: &mut Value) {
    match value {
        Value::String(text) => {
            if text.chars().any(|c| !is_text(c)) {
                *text = text
                    .chars()
                    .map(|c| if c.is_control() { ' ' } else { c })
                    .filter(|c| is_text(*c))
                    .collect();
            }
        }
        Value::Array(items) => items.iter_mut().for_each(clean),
        Value::Object(fields) => fields.values_mut().for_each(clean),
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

fn is_text(c: char) -> bool {
    !c.is_control() && c != '\u{feff}' && u32::from(c) & 0xfffe != 0xfffe
}

/// The code itself, or `und`, ISO 639-2 for undetermined, for what is none.
pub(super) fn language(code: &str) -> &str {
    let sound = (2..=3).contains(&code.len()) && code.bytes().all(|b| b.is_ascii_alphabetic());
    if sound { code } else { "und" }
}

/// The document's title: the cards' titles, the first few; the two sides of a card count once.
fn title(cards: &[Card]) -> String {
    let mut cards: Vec<&Card> = cards.iter().collect();
    cards.dedup_by(|a, b| a.id == b.id);
    let mut names: Vec<String> = cards
        .iter()
        .take(3)
        .map(|card| {
            let mut name = Value::String(
                if card.title.trim().is_empty() {
                    &card.id
                } else {
                    &card.title
                }
                .clone(),
            );
            clean(&mut name);
            name.as_str().unwrap_or_default().to_owned()
        })
        .collect();
    if cards.len() > names.len() {
        names.push("…".to_owned());
    }
    names.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn control_characters_become_spaces() {
        let mut value = serde_json::json!({"a": ["x\ty\u{feff}\u{0}z\u{ffff}"]});
        clean(&mut value);
        assert_eq!(value, serde_json::json!({"a": ["x y z"]}));
    }

    #[test]
    fn what_is_no_language_code_is_undetermined() {
        assert_eq!(language("de"), "de");
        assert_eq!(language("en-GB"), "und");
        assert_eq!(language(""), "und");
    }
}
