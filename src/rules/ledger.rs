//! What has gone through each batch: sheets and their area, over all sessions.

use std::collections::BTreeMap;

use crate::facts::{Bath, Gone, load};
use crate::notebook::{Batch, Block, Session};
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
    /// Sheets, each exposure of a bracket counted; for a session that was planned for more, as many as were planned.
    pub sheets: u32,
    /// How many of them are only planned.
    planned: u32,
    /// Their area, planned ones as large as the first listed; none where the size of one is not known.
    pub square_millimetres: Option<f64>,
    /// How many sheets that is as they come from the packet.
    pub whole_sheets: f64,
    /// Whether it is the first fixer of every line in which it was used.
    pub first_fixer: bool,
    /// The last session that used it.
    pub last: Option<Span>,
}

/// Square millimetres in a square metre.
const SQUARE_MILLIMETRES: f64 = 1e6;

impl Entry<'_> {
    /// Litres that it fills into trays: what was mixed, diluted as it is used.
    pub(super) fn litres(&self) -> Option<f64> {
        Some(self.batch.volume.get()?.range.best * self.bath.thinning()?.best)
    }

    /// What has happened or will: `20 sheets have gone through`, or `60 sheets are to go through` with planned ones.
    pub(super) fn gone(&self) -> String {
        let verb = if self.planned > 0 {
            "are to go"
        } else {
            "have gone"
        };
        format!("{} sheets {verb} through `{}`", self.sheets, self.block.id)
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
            planned: 0,
            square_millimetres: Some(0.0),
            whole_sheets: 0.0,
            first_fixer: true,
            last: None,
        };
        let (mut gone, mut one) = (Gone::NOTHING, None);
        for (session, recipe, reference) in uses.get(block.id.as_str()).into_iter().flatten() {
            entry.last = Some(*reference);
            let line = session
                .process
                .get()
                .and_then(|process| lines.get(process.value.as_str()));
            let first = line.and_then(|line| line.steps.iter().find(|step| step.fixes()));
            entry.first_fixer &= first.is_some_and(|step| step.name() == *recipe);
            let load = load(notebook, session);
            entry.planned = entry.planned.saturating_add(load.gone.sheets - load.listed);
            gone = gone.and(load.gone);
            one = one.or(load.one);
        }
        entry.sheets = gone.sheets;
        entry.square_millimetres = gone.area.map(|area| area * SQUARE_MILLIMETRES);
        entry.whole_sheets = gone.counted_in(one.as_ref());
        if entry.sheets > 0 {
            entries.push(entry);
        }
    }
    entries
}
