//! What used a block: the batches and sessions of a recipe, the sheets of a camera. Links back, at most a dozen.

use std::collections::BTreeMap;

use crate::notebook::{Block, Body, Kind, Notebook};

use super::super::block_view::Desk;
use super::super::page::{Layout, Row, Section};
use super::super::paths::Places;
use super::rows::{row, section};

/// More would be a list, not a pointer.
const MOST: usize = 12;

/// The public blocks that refer to each block, in reading order.
#[derive(Debug, Default)]
pub(in crate::views) struct Uses<'a> {
    of: BTreeMap<&'a str, Vec<&'a Block>>,
}

impl<'a> Uses<'a> {
    /// One pass over the notebook.
    pub(in crate::views) fn of(notebook: &'a Notebook, places: &Places<'_>) -> Self {
        let mut uses = Self::default();
        for block in &notebook.blocks {
            if places.site_path(block.page).is_none() {
                continue;
            }
            let mut add = |id: &'a str| uses.of.entry(id).or_default().push(block);
            match &block.body {
                Body::Batch(batch) => batch.of.get().into_iter().for_each(|of| add(&of.value)),
                Body::Session(session) => {
                    for (_, batch) in &session.baths {
                        add(&batch.value);
                    }
                    for sheet in &session.sheets {
                        add(&sheet.value);
                    }
                    session.process.get().into_iter().for_each(|id| add(&id.value));
                    session.safelight.get().into_iter().for_each(|id| add(&id.value));
                }
                Body::Exposure(exposure) => {
                    exposure.camera.get().into_iter().for_each(|id| add(&id.value));
                    exposure.paper.get().into_iter().for_each(|id| add(&id.value));
                }
                Body::Print(print) => {
                    print.of.get().into_iter().for_each(|id| add(&id.value));
                    print.paper.get().into_iter().for_each(|id| add(&id.value));
                }
                Body::Process(process) => {
                    let mut baths: Vec<&str> = process
                        .steps
                        .iter()
                        .filter_map(|step| step.bath.get())
                        .map(|id| id.value.as_str())
                        .collect();
                    baths.sort_unstable();
                    baths.dedup();
                    baths.into_iter().for_each(&mut add);
                }
                _ => {}
            }
        }
        uses
    }
}

/// The sections that lead back from a block to what used it, one for each kind.
pub(super) fn of(desk: &Desk<'_>, block: &Block) -> Vec<Section> {
    if !desk.notebook.leads_to(block) {
        return Vec::new();
    }
    let users = desk.uses.of.get(block.id.as_str()).map_or(&[][..], Vec::as_slice);
    [
        Kind::Process,
        Kind::Batch,
        Kind::Session,
        Kind::Exposure,
        Kind::Print,
    ]
    .into_iter()
    .filter_map(|kind| of_kind(desk, block, kind, users))
    .collect()
}

fn of_kind(desk: &Desk<'_>, block: &Block, kind: Kind, users: &[&Block]) -> Option<Section> {
    let users: Vec<&&Block> = users.iter().filter(|user| user.kind() == kind).collect();
    let count = users.len();
    if count == 0 {
        return None;
    }
    let mut rows: Vec<Row> = users
        .iter()
        .take(MOST)
        .map(|user| Row {
            href: desk.places.block_from(block.page, user),
            ..row(&small_print(desk, user), user.name())
        })
        .collect();
    if count > MOST {
        rows.push(row("", format!("{} more", count - MOST)));
    }
    let heading = match (kind, count) {
        (Kind::Process, _) => "in the line".to_owned(),
        (Kind::Batch, 1) => "mixed once".to_owned(),
        (Kind::Batch, count) => format!("mixed {count} times"),
        (Kind::Session, _) => "used in".to_owned(),
        (Kind::Exposure, 1) => "one sheet".to_owned(),
        (Kind::Exposure, count) => format!("{count} sheets"),
        (_, 1) => "one print".to_owned(),
        (_, count) => format!("{count} prints"),
    };
    Some(section(Some(&heading), rows, Layout::Links))
}

/// Of a sheet how it came out, of a batch or session its day.
fn small_print(desk: &Desk<'_>, block: &Block) -> String {
    let (when, result) = match &block.body {
        Body::Batch(batch) => (batch.made.get(), None),
        Body::Session(session) => (session.when.get(), None),
        Body::Exposure(exposure) => (None, exposure.result.get()),
        Body::Print(print) => (None, print.result.get()),
        _ => (None, None),
    };
    match (when, result) {
        (Some(when), _) => when.value.at.strftime("%Y-%m-%d").to_string(),
        (None, Some(result)) => super::verdict(&result.value, desk.style),
        (None, None) => String::new(),
    }
}
