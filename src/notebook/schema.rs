//! The language as JSON Schema, draft 2020-12, for editors: made from the tables that lowering reads, so that an editor
//! offers and refuses the same keys.
//!
//! A schema sees keys, words and whether a value is a scalar, a list or a map. What an amount says, whether a reference
//! meets a block and whether a date exists is for `proof`.

use serde_json::{Map, Value, json};

use crate::units::Dimension;

use super::field::{COMMON, Field, Shape};
use super::{Kind, StepKind, Verb, exposure, lower, page, settings, step, usage};

const DRAFT: &str = "https://json-schema.org/draft/2020-12/schema";

/// The definition of `trayside.yaml`.
const SETTINGS: &str = "trayside.yaml";

/// The definition of a page's front matter.
const PAGE: &str = "page";

/// Everything a schema can be asked for: the kinds of blocks, `trayside.yaml`, and `page` for front matter.
pub fn names() -> impl Iterator<Item = &'static str> {
    Kind::ALL.into_iter().map(Kind::word).chain([SETTINGS, PAGE])
}

/// The schema of all blocks: each kind is a definition under `$defs`, and a value is one of them.
pub fn all() -> Value {
    let kinds: Vec<Value> = Kind::ALL.into_iter().map(|kind| refer(kind.word())).collect();
    json!({
        "$schema": DRAFT,
        "title": "The blocks of a trayside notebook",
        "anyOf": kinds,
        "$defs": definitions(),
    })
}

/// The schema of one of [`names`], or nothing.
pub fn of(name: &str) -> Option<Value> {
    let name = names().find(|known| *known == name)?;
    Some(json!({
        "$schema": DRAFT,
        "$ref": format!("#/$defs/{name}"),
        "$defs": definitions(),
    }))
}

fn refer(name: &str) -> Value {
    json!({"$ref": format!("#/$defs/{name}")})
}

fn definitions() -> Value {
    let mut all = Map::new();
    for kind in Kind::ALL {
        all.insert(kind.word().to_owned(), block(kind));
    }
    all.insert(SETTINGS.to_owned(), object(settings::FIELDS, &[]));
    all.insert(PAGE.to_owned(), object(page::FIELDS, &[]));
    all.insert("step".to_owned(), step());
    all.insert("figure".to_owned(), figure());
    Value::Object(all)
}

/// A block's keys; what `based on` supplies need not be there.
fn block(kind: Kind) -> Value {
    let mut schema = object(kind.fields(), COMMON);
    schema["title"] = json!(kind.word());
    if kind.fields().iter().any(|field| field.key == "based on")
        && let Some(map) = schema.as_object_mut()
        && let Some(required) = map.shift_remove("required")
    {
        map.insert(
            "anyOf".to_owned(),
            json!([{"required": required}, {"required": ["based on"]}]),
        );
    }
    schema
}

fn object(fields: &[Field], more: &[Field]) -> Value {
    let mut properties = Map::new();
    for field in fields.iter().chain(more) {
        let mut value = property(field);
        if let Some(map) = value.as_object_mut() {
            let words = field.shape.words();
            map.insert(
                "description".to_owned(),
                json!(format!("{} ({words})", field.meaning)),
            );
        }
        properties.insert(field.key.to_owned(), value);
    }
    let required: Vec<&str> = fields
        .iter()
        .chain(more)
        .filter(|field| field.required)
        .map(|field| field.key)
        .collect();
    let mut schema = Map::new();
    schema.insert("type".to_owned(), json!("object"));
    schema.insert("properties".to_owned(), Value::Object(properties));
    if !required.is_empty() {
        schema.insert("required".to_owned(), json!(required));
    }
    schema.insert("additionalProperties".to_owned(), json!(false));
    Value::Object(schema)
}

/// A key's value. A few maps have a short form beside them.
fn property(field: &Field) -> Value {
    let usual = shape(&field.shape);
    match (field.key, field.shape) {
        // `keeps: 1 h` stands for one time in tray and bottle alike.
        ("keeps", Shape::Map(_)) => either(&[scalar(), usual]),
        // `cards:` alone asks for cards with the usual settings.
        ("cards" | "site", Shape::Map(_)) => either(&[usual, json!({"type": "null"})]),
        // `rinse`, `wash` and `dry` may stand alone in a line.
        ("steps", Shape::List(Shape::Map(fields))) if is_line(fields) => {
            let bare = json!({"enum": ["rinse", "wash", "dry"]});
            list(&either(&[object(fields, &[]), bare]))
        }
        _ => usual,
    }
}

/// Whether these are the keys of a step of the line.
fn is_line(fields: &[Field]) -> bool {
    fields.iter().any(|field| field.key == StepKind::Rinse.word())
}

fn shape(shape: &Shape) -> Value {
    match shape {
        Shape::Amount(dimensions) => either(&[amount(dimensions), refer("figure")]),
        Shape::Text | Shape::Reference(_) => scalar(),
        Shape::Word(words) => json!({"enum": words}),
        Shape::Date => json!({"type": "string"}),
        Shape::YesNo => json!({"enum": ["yes", "no"]}),
        Shape::Whole => json!({"type": "integer", "minimum": 0}),
        Shape::Map(fields) => object(fields, &[]),
        Shape::List(item) => list(&self::shape(item)),
        Shape::Each(value) => json!({"type": "object", "additionalProperties": self::shape(value)}),
        Shape::Own(words) => own(words),
    }
}

/// What has its own reading: a scalar, unless its words say that it may be more.
fn own(words: &str) -> Value {
    match words {
        "a step" => refer("step"),
        "settings" => json!({}),
        "words, a time, or nothing" => json!({"type": ["string", "number", "null"]}),
        "[one part, into another]" | "[one part, another]" => list(&json!({"type": "string"})),
        "a file, or a map with file, seen from, dpi, white" => {
            either(&[scalar(), object(exposure::SCAN, &[])])
        }
        "lux seconds, or lamp, distance and time" => {
            either(&[scalar(), object(exposure::PREFLASH, &[]), refer("figure")])
        }
        "a second time at a second temperature, or Q10" => either(&[scalar(), object(usage::SECOND, &[])]),
        // These are amounts with something beside them, and may say how sure they are.
        _ => either(&[scalar(), refer("figure")]),
    }
}

/// YAML takes a bare `2` for a number and a bare `true` for a truth value; the notebook takes both for words.
fn scalar() -> Value {
    json!({"type": ["string", "number", "boolean"]})
}

fn amount(dimensions: &[Dimension]) -> Value {
    let bare = dimensions.iter().any(|dimension| dimension.takes_bare_number());
    let examples: Vec<&str> = dimensions
        .iter()
        .map(|dimension| dimension.example())
        .take(3)
        .collect();
    if bare {
        json!({"type": ["string", "number"], "examples": examples})
    } else {
        json!({"type": "string", "examples": examples})
    }
}

/// A list; one item may stand for a list of one.
fn list(item: &Value) -> Value {
    json!({"anyOf": [item, {"type": "array", "items": item}]})
}

fn either(schemas: &[Value]) -> Value {
    json!({"anyOf": schemas})
}

/// An amount with its evidence.
fn figure() -> Value {
    let mut schema = object(lower::FIGURE, &[]);
    schema["properties"]["value"]["type"] = json!(["string", "number"]);
    if let Some(value) = schema["properties"]["value"].as_object_mut() {
        value.shift_remove("anyOf");
    }
    schema
}

/// A step of a recipe: a bare verb, or one verb with its value and what may stand beside it.
fn step() -> Value {
    let verbs = Verb::WORDS;
    let mut schema = object(step::STEP, &[]);
    for verb in verbs {
        // `strain:` with nothing after the colon is the bare verb.
        let said = schema["properties"][*verb].take();
        let description = said["description"].clone();
        schema["properties"][*verb] = json!({"anyOf": [said, {"type": "null"}], "description": description});
    }
    let one: Vec<Value> = verbs.iter().map(|verb| json!({"required": [verb]})).collect();
    schema["oneOf"] = json!(one);
    either(&[json!({"enum": verbs}), schema])
}
