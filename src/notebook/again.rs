//! A notebook read again: pages that are as they were are taken over, and what differs is named.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::sync::Arc;

use jiff::tz::TimeZone;
use rayon::prelude::*;

use crate::finding::Finding;
use crate::source::{FileId, SourceFile, Sources, Span};
use crate::syntax::Page;
use crate::units::Style;

use super::holes::Holes;
use super::lower::Pending;
use super::page::PageHead;
use super::settings::Settings;
use super::{Block, Kind, Notebook};

/// What pages are read by: the style and the zone of the notebook.
pub(super) type ReadBy = (Style, Option<TimeZone>);

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
    /// What its references say that are not met, as far as that is known.
    pub(super) unmet: Vec<Finding>,
}

impl Leaf {
    /// Whether reading would give this leaf again.
    pub(super) fn is_of(&self, path: &str, source: &Arc<str>) -> bool {
        self.head.path == path && self.rest.is_of(source)
    }

    pub(super) fn view(&self) -> LeafView<'_> {
        LeafView {
            text: &self.text,
            blocks: &self.blocks,
            rest: &self.rest,
        }
    }
}

/// What one page gave, wherever it is kept.
#[derive(Clone, Copy)]
pub(super) struct LeafView<'l> {
    text: &'l Page,
    blocks: &'l [Block],
    rest: &'l Rest,
}

impl LeafView<'_> {
    /// Whether what other pages can refer to has the same names on both.
    pub(super) fn has_names_of(self, other: Self) -> bool {
        let same = |(one, other): (&Block, &Block)| {
            one.id == other.id && one.named == other.named && one.kind() == other.kind()
        };
        self.blocks.len() == other.blocks.len()
            && self.blocks.iter().zip(other.blocks).all(same)
            && self.rest.misnamed == other.rest.misnamed
    }
}

impl Rest {
    fn is_of(&self, source: &Arc<str>) -> bool {
        Arc::ptr_eq(&self.source, source) || self.source == *source
    }
}

/// What of an earlier notebook pages are compared with, where other pages are read now than then.
#[derive(Default)]
pub(super) struct Before {
    pub(super) leaves: BTreeMap<FileId, Leaf>,
    /// None where there was no notebook, or one that read its pages otherwise.
    settings: Option<Settings>,
    state: State,
}

impl Before {
    /// Takes a notebook apart. Where pages are now read by another style or zone, none can be taken over.
    pub(super) fn of(mut notebook: Notebook, by: &ReadBy) -> Self {
        let state = State::of(&mut notebook);
        let mut leaves = BTreeMap::new();
        let mut settings = None;
        if notebook.read_by == *by {
            settings = Some(notebook.settings);
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
            settings,
            state,
        }
    }

    /// Whether it was a notebook that read its pages as they are read now, and had these settings.
    pub(super) fn had(&self, settings: &Settings) -> bool {
        self.settings.as_ref() == Some(settings)
    }

    /// What of it concerned the whole.
    pub(super) fn state(self) -> State {
        self.state
    }
}

/// What of an earlier notebook concerned the whole of it.
#[derive(Default)]
pub(super) struct State {
    holes: Holes,
    doubled: BTreeSet<String>,
}

impl State {
    /// Takes it out of a notebook.
    pub(super) fn of(notebook: &mut Notebook) -> Self {
        Self {
            doubled: doubled(notebook),
            holes: std::mem::take(&mut notebook.holes),
        }
    }

    /// Whether every id was given once.
    pub(super) fn is_plain(&self) -> bool {
        self.doubled.is_empty()
    }
}

impl Notebook {
    /// Whether it was read from these pages, each perhaps with another text, and as they are read now.
    pub(super) fn is_of(&self, sources: &Sources, pages: &[FileId], by: &ReadBy) -> bool {
        let same =
            |(head, file): (&PageHead, &FileId)| head.file == *file && head.path == sources.path(*file);
        self.read_by == *by && self.pages.len() == pages.len() && self.pages.iter().zip(pages).all(same)
    }

    /// The places of the pages whose text is another now.
    pub(super) fn other_texts(&self, sources: &Sources) -> Vec<usize> {
        let other = |(head, rest): (&PageHead, &Rest)| {
            let now = sources.get(head.file).map(SourceFile::text);
            now.is_none_or(|now| !rest.is_of(now))
        };
        let pages = self.pages.par_iter().zip(&self.rests).enumerate();
        pages.filter_map(|(at, page)| other(page).then_some(at)).collect()
    }

    /// What the page at a place gave.
    pub(super) fn leaf(&self, at: usize) -> Option<LeafView<'_>> {
        Some(LeafView {
            text: self.texts.get(at)?,
            blocks: self.blocks_on(self.pages.get(at)?.file),
            rest: self.rests.get(at)?,
        })
    }

    /// The blocks of a page, in order of place.
    pub fn blocks_on(&self, file: FileId) -> &[Block] {
        self.blocks.get(self.blocks_of(file)).unwrap_or_default()
    }

    /// The places of a page's blocks: blocks stand in the order of their pages.
    fn blocks_of(&self, file: FileId) -> Range<usize> {
        let from = self.blocks.partition_point(|block| block.page < file);
        let to = self.blocks.partition_point(|block| block.page <= file);
        from..to
    }

    /// Puts what a page gives now in the place of what it gave.
    pub(super) fn put(&mut self, at: usize, leaf: Leaf) {
        let blocks = self.blocks_of(leaf.head.file);
        let places = (
            self.pages.get_mut(at),
            self.texts.get_mut(at),
            self.rests.get_mut(at),
        );
        if let (Some(head), Some(text), Some(rest)) = places {
            (*head, *text, *rest) = (leaf.head, leaf.text, leaf.rest);
            self.blocks.splice(blocks, leaf.blocks);
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
    /// Notes a page that was read, beside what it was before, where it was there.
    pub(super) fn page(&mut self, before: Option<LeafView<'_>>, now: LeafView<'_>) {
        self.read.insert(now.text.file);
        self.moved.extend(now.blocks.iter().map(Block::kind));
        self.blocks(before, Some(now));
    }

    /// Notes a page that is gone.
    pub(super) fn gone(&mut self, before: LeafView<'_>) {
        self.blocks(Some(before), None);
    }

    fn blocks(&mut self, before: Option<LeafView<'_>>, now: Option<LeafView<'_>>) {
        let was = before.map(written).unwrap_or_default();
        let is = now.map(written).unwrap_or_default();
        let same = |block: &Block| {
            let was = was.get(block.id.as_str());
            block.named && was.is_some_and(Option::is_some) && was == is.get(block.id.as_str())
        };
        let blocks = before.into_iter().chain(now).flat_map(|leaf| leaf.blocks);
        for block in blocks.filter(|block| !same(block)) {
            self.kinds.insert(block.kind());
            self.ids.insert(block.id.clone());
        }
    }

    /// Adds what only the whole notebook tells: whether an id that changed is one of two.
    pub(super) fn end(&mut self, before: State, now: &Notebook) {
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
fn written(leaf: LeafView<'_>) -> BTreeMap<&str, Option<Written<'_>>> {
    let mut written = BTreeMap::new();
    for block in leaf.blocks {
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
