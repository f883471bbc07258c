//! `trayside facts`: every computed value, as text, JSON or CSV, and where one comes from.

use crate::facts::{Fact, render};
use crate::notebook::nearest;
use crate::pipeline::{self, Proof};

use super::arguments::{Facts, FactsFormat};
use super::progress::Line;
use super::proof::outcome;
use super::{Outcome, Stop, open_notebook, terminal};

pub(crate) fn run(arguments: &Facts) -> Result<Outcome, Stop> {
    let host = open_notebook(arguments.notebook.as_ref())?;
    let progress = Line::new();
    let proof = pipeline::proof(&host, &progress)?;
    progress.done();
    if let Some(name) = &arguments.why {
        let fact = find(&proof, name)?;
        terminal::show(&render::why(
            name,
            fact,
            &proof.facts,
            proof.notebook.settings.style,
        ));
        return Ok(outcome(proof.summary()));
    }
    let format = match arguments.format {
        _ if arguments.json => FactsFormat::Json,
        _ if arguments.csv => FactsFormat::Csv,
        format => format,
    };
    terminal::show(&match format {
        FactsFormat::Text => render::text(&proof.notebook, &proof.facts),
        FactsFormat::Json => render::json(&proof.notebook, &proof.facts, &proof.sources, &|_| true),
        FactsFormat::Csv => render::csv(&proof.notebook, &proof.facts, &proof.sources, &|_| true),
    });
    Ok(outcome(proof.summary()))
}

fn find<'p>(proof: &'p Proof, name: &str) -> Result<&'p Fact, Stop> {
    if let Some(fact) = proof.facts.named(name) {
        return Ok(fact);
    }
    let known: Vec<String> = proof
        .facts
        .iter()
        .flat_map(|(id, facts)| facts.iter().map(move |fact| format!("{id}.{}", fact.name)))
        .collect();
    let near = nearest(name, known.iter().map(String::as_str));
    Err(Stop(match near {
        Some(near) => format!("there is no fact `{name}`; did you mean `{near}`?"),
        None => format!("there is no fact `{name}`; `trayside facts` lists them all"),
    }))
}
