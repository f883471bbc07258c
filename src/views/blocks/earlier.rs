//! A batch whose recipe has changed since: what differs, at the batch and wherever a sheet's way leads through it.

use crate::notebook::{Batch, Block, Difference, Earlier, Stands};

use super::super::block_view::Desk;
use super::super::page::{Layout, Section};
use super::super::words::Words;
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
        .map(|one| row(&what(desk, one), then_now(desk, one)))
        .collect();
    let heading = Words::fill(desk.words.block.row.earlier_text, of.name());
    Some(section(Some(&heading), rows, Layout::Lines))
}

/// The same in a few words, for a line that names the batch; nothing where its recipe is as it was.
pub(super) fn remark(desk: &Desk<'_>, batch: &str) -> String {
    let Some(earlier) = shown(desk, batch) else {
        return String::new();
    };
    let say = &desk.words.block.value;
    let worded = |one: &Difference| format!("{}: {}", what(desk, one), then_now(desk, one));
    let mut words: Vec<String> = earlier.differences.iter().take(FEW).map(worded).collect();
    if earlier.differences.len() > FEW {
        let more = earlier.differences.len() - FEW;
        words.push(Words::fill(say.and_more, &more.to_string()));
    }
    Words::fill(say.earlier_text, &words.join("; "))
}

/// Such as `washing soda, anhydrous`, or `steps of the tea`.
fn what(desk: &Desk<'_>, one: &Difference) -> String {
    let (say, name) = (&desk.words.block.value, &one.what.name);
    match &one.what.place {
        Stands::Whole => name.clone(),
        Stands::Of(part) => Words::fill_all(say.key_of, &[name, part]),
        Stands::In(part) => Words::fill_all(say.material_in, &[name, part]),
    }
}

/// Such as `30 g then, 25 g now`.
fn then_now(desk: &Desk<'_>, one: &Difference) -> String {
    let say = &desk.words.block.value;
    let word = |text: &str| match text {
        Difference::NONE => say.then_none.to_owned(),
        Difference::NOT_SAID => say.not_said.to_owned(),
        written => written.to_owned(),
    };
    Words::fill_all(say.then_now, &[&word(&one.then), &word(&one.now)])
}

fn shown<'a>(desk: &Desk<'a>, batch: &str) -> Option<&'a Earlier> {
    let block = desk.notebook.block(batch)?;
    let open = desk.notebook.leads_to(block) && desk.places.is_open(batch);
    let earlier = desk.notebook.earlier(batch).filter(|_| open)?;
    (!earlier.differences.is_empty()).then_some(earlier)
}
