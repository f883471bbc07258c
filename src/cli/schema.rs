//! `trayside schema`: the language as JSON Schema, for editors.

use crate::notebook::{nearest, schema};

use super::arguments::Schema;
use super::{Outcome, Stop, terminal};

pub(crate) fn run(arguments: &Schema) -> Result<Outcome, Stop> {
    let Some(name) = arguments.kind.as_deref() else {
        terminal::show(&format!("{:#}\n", schema::all()));
        return Ok(Outcome::Clean);
    };
    let schema = schema::of(name).ok_or_else(|| unknown(name))?;
    terminal::show(&format!("{schema:#}\n"));
    Ok(Outcome::Clean)
}

fn unknown(name: &str) -> Stop {
    if let Some(near) = nearest(name, schema::names()) {
        return Stop(format!("there is no kind `{name}`; did you mean `{near}`?"));
    }
    let known: Vec<&str> = schema::names().collect();
    Stop(format!(
        "there is no kind `{name}`; known are {}",
        known.join(", ")
    ))
}
