//! What used a block, and what a sheet came from: the batches, sessions and sheets of a recipe, the sheets of a camera,
//! the baths of a sheet. Links, at most a dozen of a kind.

use std::collections::BTreeSet;

use crate::notebook::{Block, Body, Kind, Notebook};
use crate::source::ByName;

use super::super::block_view::Desk;
use super::super::page::{Layout, Row, Section};
use super::super::paths::Places;
use super::super::words::{RowWords, Words};
use super::earlier;
use super::rows::{row, section, unlabelled};

/// More would be a list, not a pointer.
const MOST: usize = 12;

/// The public blocks that refer to each block, in reading order.
#[derive(Debug, Default)]
pub(in crate::views) struct Uses<'a> {
    of: ByName<&'a str, Vec<&'a Block>>,
}

impl<'a> Uses<'a> {
    /// One pass over the notebook.
    pub(in crate::views) fn of(notebook: &'a Notebook, places: &Places<'_>) -> Self {
        let mut uses = Self::default();
        for block in &notebook.blocks {
            if places.site_path(block.page).is_none() {
                continue;
            }
            let mut add = |id: &'a str| uses.of.get_or_default(id).push(block);
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

impl<'a> Uses<'a> {
    /// What refers to the block of this id.
    pub(in crate::views) fn of_block(&self, id: &str) -> &[&'a Block] {
        self.of.get(id).map_or(&[], Vec::as_slice)
    }
}

/// The sections that lead back from a block to what used it, one for each kind.
pub(super) fn of(desk: &Desk<'_>, block: &Block) -> Vec<Section> {
    if !desk.notebook.leads_to(block) {
        return Vec::new();
    }
    let users = desk.uses.of_block(&block.id);
    let (upward, sheets) = match block.kind() {
        Kind::Exposure | Kind::Print => (baths_of(desk, users), Vec::new()),
        Kind::Batch => (Vec::new(), sheets_of(desk, users)),
        Kind::Recipe => {
            let batches = users.iter().filter(|user| user.kind() == Kind::Batch);
            let sessions: Vec<&Block> = batches
                .flat_map(|batch| desk.uses.of_block(&batch.id))
                .copied()
                .collect();
            (Vec::new(), sheets_of(desk, &sessions))
        }
        _ => (Vec::new(), Vec::new()),
    };
    let (batches, recipes): (Vec<&Block>, Vec<&Block>) =
        upward.into_iter().partition(|block| block.kind() == Kind::Batch);
    let words = &desk.words.block.row;
    let direct = |kind| {
        let of_kind: Vec<&Block> = users.iter().filter(|user| user.kind() == kind).copied().collect();
        links(desk, block, &direct_heading(words, kind, of_kind.len()), &of_kind)
    };
    [
        direct(Kind::Process),
        direct(Kind::Batch),
        direct(Kind::Session),
        links(desk, block, words.in_the_baths, &batches),
        links(desk, block, words.by_the_recipes, &recipes),
        direct(Kind::Exposure),
        direct(Kind::Print),
        links(desk, block, words.through_it, &sheets),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The batches of the sessions that a sheet went through, and the recipes they were mixed by.
fn baths_of<'a>(desk: &Desk<'a>, users: &[&'a Block]) -> Vec<&'a Block> {
    let mut found: Vec<&Block> = Vec::new();
    for session in users {
        let Body::Session(session) = &session.body else {
            continue;
        };
        for (recipe, batch) in &session.baths {
            for id in [&batch.value, &recipe.value] {
                let bath = desk.places.block(id);
                let bath = bath.filter(|bath| matches!(bath.kind(), Kind::Batch | Kind::Recipe));
                found.extend(bath.filter(|bath| !found.iter().any(|known| std::ptr::eq(*known, *bath))));
            }
        }
    }
    found
}

/// The sheets of sessions, each once.
fn sheets_of<'a>(desk: &Desk<'a>, users: &[&'a Block]) -> Vec<&'a Block> {
    let mut found = Vec::new();
    let mut known = BTreeSet::new();
    for session in users {
        if let Body::Session(session) = &session.body {
            let sheets = session.sheets.iter().filter(|sheet| known.insert(&sheet.value));
            found.extend(sheets.filter_map(|sheet| desk.places.block(&sheet.value)));
        }
    }
    found
}

/// A line of links, where there are any.
fn links(desk: &Desk<'_>, block: &Block, heading: &str, users: &[&Block]) -> Option<Section> {
    let count = users.len();
    if count == 0 {
        return None;
    }
    let mut rows: Vec<Row> = users
        .iter()
        .take(MOST)
        .map(|user| Row {
            href: desk.places.block_from(block.page, user),
            remark: earlier::remark(desk, &user.id),
            ..row(&small_print(desk, user), user.name())
        })
        .collect();
    if count > MOST {
        rows.push(unlabelled(Words::fill(
            desk.words.block.value.more,
            &(count - MOST).to_string(),
        )));
    }
    Some(section(Some(heading), rows, Layout::Links))
}

fn direct_heading(words: &RowWords, kind: Kind, count: usize) -> String {
    let heading = match (kind, count) {
        (Kind::Process, _) => words.in_the_line,
        (Kind::Batch, 1) => words.mixed_once,
        (Kind::Batch, _) => words.mixed_times,
        (Kind::Session, _) => words.used_in,
        (Kind::Exposure, 1) => words.one_sheet,
        (Kind::Exposure, _) => words.many_sheets,
        (_, 1) => words.one_print,
        (_, _) => words.many_prints,
    };
    Words::fill(heading, &count.to_string())
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
        (None, Some(result)) => super::verdict(&result.value, desk.words, desk.style),
        (None, None) => String::new(),
    }
}
