//! `trayside press`: check, then press cards and site.

use std::fmt::Write as _;

use crate::finding::{Summary, render};
use crate::pipeline::{self, Only, PRESSED, Pressing};
use crate::views::LeftOut;

use super::arguments::Press;
use super::progress::Line;
use super::proof::{counted, outcome, summary_line};
use super::{Outcome, Stop, kept, open_notebook, terminal};

pub(crate) fn run(arguments: &Press) -> Result<Outcome, Stop> {
    let host = open_notebook(arguments.notebook.as_ref())?;
    let progress = Line::new();
    let mut proof = pipeline::proof(&host, &progress)?;
    let mut pressing = if arguments.only.is_empty() {
        pipeline::press(&host, &proof, &progress)?
    } else {
        let only = Only::read(&arguments.only, &proof.notebook).map_err(Stop)?;
        pipeline::press_only(&host, &proof, &progress, &only)?
    };
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
    for (at, left) in pressing.left_out.iter().enumerate() {
        let same = |other: &&LeftOut| (&other.id, &other.why) == (&left.id, &left.why);
        if pressing.left_out.iter().take(at).any(|other| same(&other)) {
            continue;
        }
        let whats: Vec<&str> = pressing
            .left_out
            .iter()
            .filter(same)
            .map(|other| other.what)
            .collect();
        let _ = writeln!(out, "no {} of {}: {}", whats.join(", no "), left.id, left.why);
    }
    for word in &pressing.not_yet {
        let _ = writeln!(out, "not made by this version: {word}");
    }
    out.push_str(&kept::said(&pressing.keeping));
    for gone in &pressing.replaced.removed {
        let _ = writeln!(out, "removed {}", render::tame(gone));
    }
    let made: Vec<String> = [
        (pressing.cards, "card", "cards"),
        (pressing.labels, "label", "labels"),
        (pressing.sheets, "weighing sheet", "weighing sheets"),
        (pressing.slips, "log slip", "log slips"),
        (pressing.rooms, "room sheet", "room sheets"),
    ]
    .into_iter()
    .filter(|(count, one, _)| *count > 0 || *one == "card")
    .map(|(count, one, several)| counted(count, one, several))
    .collect();
    let _ = writeln!(
        out,
        "{} and {} in {folder}, {}, {} as before: {}",
        made.join(", "),
        counted(pressing.pages, "page", "pages"),
        counted(pressing.replaced.written.len(), "file written", "files written"),
        pressing.replaced.kept,
        summary_line(summary),
    );
    out
}
