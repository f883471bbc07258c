//! `trayside schema`: the language as JSON Schema, for editors.

use crate::notebook::{nearest, schema};

use super::arguments::Schema;
use super::{Outcome, Stop, terminal};

pub(crate) fn run(arguments: &Schema) -> Result<Outcome, Stop> {
    let Some(name) = arguments.kind.as_deref() else {
        terminal::show(&format!("{:#}\n", schema::all()));
        return Ok(Outcome::Clean);
    };
    match schema::of(name) {
        Some(schema) => {
            terminal::show(&format!("{schema:#}\n"));
            Ok(Outcome::Clean)
        }
        None => {
            let near = nearest(name, schema::names());
            Err(Stop(match near {
                Some(near) => format!("there is no kind `{name}`; did you mean `{near}`?"),
                None => {
                    let known: Vec<&str> = schema::names().collect();
                    format!("there is no kind `{name}`; known are {}", known.join(", "))
                }
            }))
        }
    }
}
