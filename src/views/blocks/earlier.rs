//! A batch whose recipe has changed since: what differs, at the batch and wherever a sheet's way leads through it.

use crate::notebook::{Batch, Block, Difference, Earlier};

use super::super::block_view::Desk;
use super::super::page::{Layout, Section};
use super::rows::{row, section};

/// Differences that are named in passing.
const FEW: usize = 2;

/// What a batch's recipe said then and says now, key by key.
pub(super) fn section_of(desk: &Desk<'_>, block: &Block, batch: &Batch) -> Option<Section> {
    let earlier = shown(desk, &block.id)?;
    let of = batch.of.get().and_then(|of| desk.places.block(&of.value))?;
    let rows = earlier
        .differences
        .iter()
        .map(|one| row(&one.what, one.words()))
        .collect();
    let heading = format!("mixed by an earlier text of {}", of.name());
    Some(section(Some(&heading), rows, Layout::Lines))
}

/// The same in a few words, for a line that names the batch; nothing where its recipe is as it was.
pub(super) fn remark(desk: &Desk<'_>, batch: &str) -> String {
    let Some(earlier) = shown(desk, batch) else {
        return String::new();
    };
    let worded = |one: &Difference| format!("{}: {}", one.what, one.words());
    let mut words: Vec<String> = earlier.differences.iter().take(FEW).map(worded).collect();
    if earlier.differences.len() > FEW {
        words.push(format!("and {} more", earlier.differences.len() - FEW));
    }
    format!("by an earlier text of its recipe: {}", words.join("; "))
}

fn shown<'a>(desk: &Desk<'a>, batch: &str) -> Option<&'a Earlier> {
    let block = desk.notebook.block(batch)?;
    let open = desk.notebook.leads_to(block) && desk.places.is_open(batch);
    let earlier = desk.notebook.earlier(batch).filter(|_| open)?;
    (!earlier.differences.is_empty()).then_some(earlier)
}
