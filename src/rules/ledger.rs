//! What has gone through each batch: sheets and their area, over all sessions.

use std::collections::BTreeMap;

use crate::facts::Bath;
use crate::notebook::{Batch, Block, Body, Exposure, Notebook, Session};
use crate::source::Span;

use super::context::Context;
use super::steps::{Line, lines};

/// A batch and its use.
pub(super) struct Entry<'n> {
    /// The batch's block.
    pub block: &'n Block,
    /// The batch.
    pub batch: &'n Batch,
    /// Its recipe's bath.
    pub bath: &'n Bath,
    /// Sheets, each exposure of a bracket counted.
    pub sheets: u32,
    /// Their area; none where the size of one is not known.
    pub square_millimetres: Option<f64>,
    /// Whether it is the first fixer of every line in which it was used.
    pub first_fixer: bool,
    /// The last session that used it.
    pub last: Option<Span>,
}

impl Entry<'_> {
    /// Litres that it fills into trays: what was mixed, diluted as it is used.
    pub(super) fn litres(&self) -> Option<f64> {
        Some(self.batch.volume.get()?.range.best * self.bath.thinning()?.best)
    }
}

/// The batches that sessions used.
pub(super) fn ledger<'n>(context: &Context<'n>) -> Vec<Entry<'n>> {
    let notebook = context.notebook;
    let lines: BTreeMap<&str, Line<'_>> = lines(context)
        .into_iter()
        .map(|line| (line.block.id.as_str(), line))
        .collect();
    // By batch, so that a long log is gone through once.
    let mut uses: BTreeMap<&str, Vec<(&Session, &str, Span)>> = BTreeMap::new();
    for (_, session) in notebook.sessions() {
        for (recipe, batch) in &session.baths {
            let entry = uses.entry(batch.value.as_str()).or_default();
            entry.push((session, recipe.value.as_str(), batch.span));
        }
    }
    let mut entries = Vec::new();
    for (block, batch) in notebook.batches() {
        let bath = context.facts.baths.of_batch(&block.id, batch);
        let Some(bath) = bath else { continue };
        let mut entry = Entry {
            block,
            batch,
            bath,
            sheets: 0,
            square_millimetres: Some(0.0),
            first_fixer: true,
            last: None,
        };
        for (session, recipe, reference) in uses.get(block.id.as_str()).into_iter().flatten() {
            entry.last = Some(*reference);
            let line = session
                .process
                .get()
                .and_then(|process| lines.get(process.value.as_str()));
            let first = line.and_then(|line| line.steps.iter().find(|step| step.fixes()));
            entry.first_fixer &= first.is_some_and(|step| step.name() == *recipe);
            for sheet in &session.sheets {
                let (count, area) = sheet_area(notebook, &sheet.value);
                entry.sheets += count;
                entry.square_millimetres = entry
                    .square_millimetres
                    .and_then(|sum| Some(sum + area? * f64::from(count)));
            }
        }
        if entry.sheets > 0 {
            entries.push(entry);
        }
    }
    entries
}

/// How many sheets an exposure or print is, and the area of one in square millimetres.
fn sheet_area(notebook: &Notebook, id: &str) -> (u32, Option<f64>) {
    let (count, paper) = match notebook.block(id).map(|block| &block.body) {
        Some(Body::Exposure(exposure)) => (exposed(exposure), exposure.paper.get()),
        Some(Body::Print(print)) => (1, print.paper.get()),
        _ => (1, None),
    };
    let paper = paper.and_then(|paper| notebook.paper(&paper.value));
    let size = paper.and_then(|(_, paper)| paper.size.get());
    let area = size.map(|size| size.value.area().square_millimetres());
    (count, area)
}

fn exposed(exposure: &Exposure) -> u32 {
    exposure.bracket.get().map_or(1, |bracket| bracket.value.count)
}
