//! Rows of the optics tables.

use serde_json::{Map, Value};

use crate::optics_rows::inputs::Inputs;
use crate::optics_rows::tolerance::{Mismatch, Tolerance, compare};
use crate::optics_rows::{Fields, camera, darkroom, exposure, layout, log, sun, timetable, tone, workshop};

use super::Outcome;

/// What a family of topics offers.
type Family = fn(&str, &Inputs<'_>, &Map<String, Value>) -> Option<Fields>;

const FAMILIES: [Family; 9] = [
    camera::fields,
    exposure::fields,
    log::fields,
    sun::fields,
    darkroom::fields,
    layout::fields,
    tone::fields,
    workshop::fields,
    timetable::fields,
];

/// Checks one row: what it is about, its inputs and expected values, and how near they must be met.
pub(crate) fn check(topic: &str, inputs: &Value, expected: &Value, tolerance: &str) -> Outcome {
    let topic = topic.trim();
    let inputs = match Inputs::new(inputs) {
        Ok(inputs) => inputs,
        Err(why) => return Outcome::NotUnderstood(why),
    };
    let Value::Object(expected) = expected else {
        return Outcome::NotUnderstood("what is expected is no object".to_owned());
    };
    let Some(found) = FAMILIES
        .iter()
        .find_map(|family| family(topic, &inputs, expected))
    else {
        return Outcome::NotUnderstood(format!("no optics topic `{topic}`"));
    };
    let found = match found {
        Ok(found) => found,
        Err(why) => return Outcome::NotUnderstood(why),
    };
    let also = |field: &str, a: f64, b: f64| sun::also(topic, &found, field, a, b);
    match compare(&found, expected, &Tolerance::read(tolerance), &also) {
        Ok(()) => Outcome::Passed,
        Err(Mismatch::Unknown(field)) => Outcome::NotUnderstood(format!("no field `{field}`")),
        Err(Mismatch::Off(why)) => {
            let unused = inputs.unused();
            if unused.is_empty() {
                Outcome::Failed(why)
            } else {
                Outcome::NotUnderstood(format!("{why}; inputs not read: {}", unused.join(", ")))
            }
        }
    }
}
