//! `trayside proof`: read and check everything.

use crate::finding::{Summary, render, sarif};
use crate::pipeline;
use crate::rules;

use super::arguments::{Proof, ProofFormat};
use super::progress::Line;
use super::{Outcome, Stop, open_notebook, terminal};

pub(crate) fn run(arguments: &Proof) -> Result<Outcome, Stop> {
    let host = open_notebook(arguments.notebook.as_ref())?;
    let progress = Line::new();
    let proof = pipeline::proof(&host, &progress)?;
    progress.done();
    match arguments.format {
        ProofFormat::Json => terminal::show(&render::json_lines(&proof.findings, &proof.sources)),
        ProofFormat::Sarif => terminal::show(&sarif::log(&proof.findings, &described(), &proof.sources)),
        ProofFormat::Text => {
            terminal::show(&render::text(
                &proof.findings,
                &proof.sources,
                terminal::text_style(),
            ));
            terminal::show(&format!(
                "{}: {}\n",
                counted(proof.notebook.pages.len(), "page", "pages"),
                summary_line(proof.summary())
            ));
        }
    }
    Ok(outcome(proof.summary()))
}

/// Every rule as SARIF describes it.
pub(crate) fn described() -> Vec<sarif::Described> {
    rules::catalogue()
        .map(|rule| sarif::Described {
            name: rule.name,
            grade: rule.grade,
            short: rule.looks_for.to_owned(),
            full: rule.why.to_owned(),
            help: rule.instead.to_owned(),
            markdown: rules::explain(rule),
        })
        .collect()
}

/// Whether a notebook with such findings is refused.
pub(crate) fn outcome(summary: Summary) -> Outcome {
    if summary.refuses() {
        Outcome::Refused
    } else {
        Outcome::Clean
    }
}

/// `1 hazard, 2 doubts`, or `nothing found`.
pub(crate) fn summary_line(summary: Summary) -> String {
    let parts = [
        (summary.hazard, "hazard", "hazards"),
        (summary.fault, "fault", "faults"),
        (summary.doubt, "doubt", "doubts"),
        (summary.hint, "hint", "hints"),
    ];
    let said: Vec<String> = parts
        .into_iter()
        .filter(|(count, ..)| *count > 0)
        .map(|(count, one, many)| counted(count, one, many))
        .collect();
    if said.is_empty() {
        "nothing found".to_owned()
    } else {
        said.join(", ")
    }
}

/// `1 page`, `3 pages`.
pub(crate) fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}
