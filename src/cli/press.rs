//! `trayside press`: check, then press cards and site.

use std::fmt::Write as _;

use crate::finding::{Summary, render};
use crate::pipeline::{self, PRESSED, Pressing};

use super::arguments::Press;
use super::progress::Line;
use super::proof::{counted, outcome, summary_line};
use super::{Outcome, Stop, open_notebook, terminal};

pub(crate) fn run(arguments: &Press) -> Result<Outcome, Stop> {
    let host = open_notebook(arguments.notebook.as_ref())?;
    let progress = Line::new();
    let mut proof = pipeline::proof(&host, &progress)?;
    let mut pressing = pipeline::press(&host, &proof, &progress)?;
    progress.done();
    proof.findings.append(&mut pressing.findings);
    let summary = proof.summary();
    // What is expected or acknowledged was said by `proof`; here only what counts is worth a person's time.
    let open: Vec<_> = proof
        .findings
        .iter()
        .filter(|finding| finding.counts())
        .cloned()
        .collect();
    terminal::show(&render::text(&open, &proof.sources, terminal::text_style()));
    terminal::show(&said(
        &pressing,
        summary,
        &host.folder().join(PRESSED).display().to_string(),
    ));
    Ok(outcome(summary))
}

/// What was pressed, in a few lines.
fn said(pressing: &Pressing, summary: Summary, folder: &str) -> String {
    let mut out = String::new();
    for left in &pressing.left_out {
        let _ = writeln!(out, "no {} of {}: {}", left.what, left.id, left.why);
    }
    for word in &pressing.not_yet {
        let _ = writeln!(out, "not made by this version: {word}");
    }
    for gone in &pressing.replaced.removed {
        let _ = writeln!(out, "removed {gone}");
    }
    let _ = writeln!(
        out,
        "{} and {} in {folder}, {}, {} as before: {}",
        match pressing.labels {
            0 => counted(pressing.cards, "card", "cards"),
            labels => format!(
                "{}, {}",
                counted(pressing.cards, "card", "cards"),
                counted(labels, "label", "labels")
            ),
        },
        counted(pressing.pages, "page", "pages"),
        counted(pressing.replaced.written.len(), "file written", "files written"),
        pressing.replaced.kept,
        summary_line(summary),
    );
    out
}
