//! Rows of the optics tables: each topic asks the library and gives back every field it knows.

pub(crate) mod camera;
pub(crate) mod darkroom;
pub(crate) mod exposure;
pub(crate) mod inputs;
pub(crate) mod layout;
pub(crate) mod log;
pub(crate) mod sun;
pub(crate) mod timetable;
pub(crate) mod tolerance;
pub(crate) mod tone;
pub(crate) mod workshop;

use serde_json::{Map, Value};

/// The fields that a topic gives back, or why the row is not understood.
pub(crate) type Fields = Result<Map<String, Value>, String>;

/// Numbers under their names.
pub(crate) fn numbers<const N: usize>(fields: [(&str, f64); N]) -> Map<String, Value> {
    fields
        .into_iter()
        .map(|(name, value)| (name.to_owned(), number(value)))
        .collect()
}

/// A number as JSON; what is not finite becomes null.
pub(crate) fn number(value: f64) -> Value {
    serde_json::Number::from_f64(value).map_or(Value::Null, Value::Number)
}
