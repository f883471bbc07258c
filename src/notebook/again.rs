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
        // The same fences give the same blocks, but for the names of those that are named by their place.
        let named = |leaf: &Leaf| leaf.blocks.iter().all(|block| block.named);
        let fences = |leaf: &Leaf| -> Vec<(String, String, bool)> {
            let fences = leaf.text.fences.iter();
            fences
                .map(|fence| (fence.info.value.clone(), fence.text.clone(), fence.closed))
                .collect()
        };
        let same = before.blocks.len() == now.blocks.len() && named(before) && named(now);
        if same && fences(before) == fences(now) {
            return;
        }
        for block in before.blocks.iter().chain(&now.blocks) {
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
