//! A notebook read again: pages that are as they were are taken over, and what differs is named.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use jiff::tz::TimeZone;

use crate::finding::Finding;
use crate::source::{FileId, Span};
use crate::syntax::Page;
use crate::units::Style;

use super::holes::Holes;
use super::lower::Pending;
use super::page::PageHead;
use super::settings::Settings;
use super::{Block, Kind, Notebook};

/// What one page gave.
pub(super) struct Leaf {
    pub(super) head: PageHead,
    pub(super) text: Page,
    pub(super) blocks: Vec<Block>,
    pub(super) rest: Rest,
}

/// What one page gave besides its head, its text and its blocks.
#[derive(Debug)]
pub(super) struct Rest {
    /// The text that it was read from.
    pub(super) source: Arc<str>,
    pub(super) findings: Vec<Finding>,
    pub(super) pending: Vec<Pending>,
    pub(super) zoneless: Option<Span>,
    pub(super) misnamed: Vec<String>,
}

impl Leaf {
    /// Whether reading would give this leaf again.
    pub(super) fn is_of(&self, path: &str, source: &Arc<str>) -> bool {
        self.head.path == path && (Arc::ptr_eq(&self.rest.source, source) || self.rest.source == *source)
    }
}

/// What of an earlier notebook pages are compared with.
pub(super) struct Before {
    pub(super) leaves: BTreeMap<FileId, Leaf>,
    settings: Settings,
    holes: Holes,
    doubled: BTreeSet<String>,
}

impl Before {
    /// Takes a notebook apart. Where pages are now read by another style or zone, none can be taken over.
    pub(super) fn of(notebook: Notebook, style: Style, zone: Option<&TimeZone>) -> Self {
        let doubled = doubled(&notebook);
        let same = notebook.read_by == (style, zone.cloned());
        let mut leaves = BTreeMap::new();
        if same {
            let mut blocks = notebook.blocks.into_iter().peekable();
            let heads = notebook.pages.into_iter().zip(notebook.texts);
            for ((head, text), rest) in heads.zip(notebook.rests) {
                let mut own = Vec::new();
                while let Some(block) = blocks.next_if(|block| block.page == head.file) {
                    own.push(Block {
                        doubled: false,
                        ..block
                    });
                }
                let leaf = Leaf {
                    head,
                    text,
                    blocks: own,
                    rest,
                };
                leaves.insert(leaf.head.file, leaf);
            }
        }
        Self {
            leaves,
            settings: notebook.settings,
            holes: notebook.holes,
            doubled,
        }
    }
}

fn doubled(notebook: &Notebook) -> BTreeSet<String> {
    let doubled = notebook.blocks.iter().filter(|block| block.doubled);
    doubled.map(|block| block.id.clone()).collect()
}

/// What differs between a notebook and the one that was read before it. What is not named here is the same in both, but for
/// the places of what stands on a page that was read.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Changes {
    /// Whether anything may differ.
    pub all: bool,
    /// The pages that were read rather than taken over.
    pub read: BTreeSet<FileId>,
    /// The kinds of the blocks that stand on these pages now: their places may be others.
    pub moved: BTreeSet<Kind>,
    /// The kinds of the blocks that are new, gone or differ.
    pub kinds: BTreeSet<Kind>,
    /// Their ids.
    pub ids: BTreeSet<String>,
    /// The holes that were measured before: those of the notebook that was read are not measured yet.
    pub(super) holes_before: Holes,
}

impl Changes {
    /// Notes a page that was read, beside what it was before.
    pub(super) fn page(&mut self, before: Option<&Leaf>, now: &Leaf) {
        self.read.insert(now.head.file);
        self.moved.extend(now.blocks.iter().map(Block::kind));
        let Some(before) = before else {
            self.all = true;
            return;
        };
        let (was, is) = (written(before), written(now));
        let same = |block: &Block| {
            let was = was.get(block.id.as_str());
            block.named && was.is_some_and(Option::is_some) && was == is.get(block.id.as_str())
        };
        for block in before
            .blocks
            .iter()
            .chain(&now.blocks)
            .filter(|block| !same(block))
        {
            self.kinds.insert(block.kind());
            self.ids.insert(block.id.clone());
        }
    }

    /// Adds what only the whole notebook tells: whether its settings differ, and whether an id that changed is one of two.
    pub(super) fn end(&mut self, before: Before, now: &Notebook) {
        self.all |= before.settings != now.settings;
        let now = doubled(now);
        self.all |= self
            .ids
            .iter()
            .any(|id| before.doubled.contains(id) || now.contains(id));
        self.holes_before = before.holes;
    }
}

/// What a block was read from, wherever it stands: its fence's words, text and end, and its place in the fence.
type Written<'l> = (&'l str, &'l str, bool, u32);

/// What the blocks of a page were read from, by id; none of an id that two of them have.
fn written(leaf: &Leaf) -> BTreeMap<&str, Option<Written<'_>>> {
    let mut written = BTreeMap::new();
    for block in &leaf.blocks {
        let fences = &leaf.text.fences;
        let after = fences.partition_point(|fence| fence.span.start <= block.span.start);
        let fence = after.checked_sub(1).and_then(|at| fences.get(at));
        let from = fence.map(|fence| {
            let place = block.span.start - fence.span.start;
            (
                fence.info.value.as_str(),
                fence.text.as_str(),
                fence.closed,
                place,
            )
        });
        let of_id = written.entry(block.id.as_str());
        of_id.and_modify(|from| *from = None).or_insert(from);
    }
    written
}
