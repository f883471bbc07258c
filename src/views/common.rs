//! What all cards and labels of a notebook are made from, and what stands on each.

use crate::facts::Facts;
use crate::finding::Finding;
use crate::notebook::{Block, Notebook};
use crate::units::Style;

use super::card::{Alt, Card, CardKind};
use super::words::{Words, words_of};

/// A notebook and what follows from it, for its cards and labels.
pub(super) struct Common<'n> {
    pub(super) notebook: &'n Notebook,
    pub(super) facts: &'n Facts,
    pub(super) findings: &'n [Finding],
    pub(super) words: &'static Words,
    pub(super) style: Style,
}

impl<'n> Common<'n> {
    pub(super) fn of(notebook: &'n Notebook, facts: &'n Facts, findings: &'n [Finding]) -> Self {
        Self {
            notebook,
            facts,
            findings,
            words: words_of(notebook),
            style: notebook.settings.style,
        }
    }

    /// A card of a block with nothing on it yet but its name.
    pub(super) fn blank(&self, block: &Block, kind: CardKind) -> Card {
        Card {
            id: block.id.clone(),
            language: self.words.code.to_owned(),
            kind,
            title: block.name().to_owned(),
            role: String::new(),
            tray: None,
            key_figures: Vec::new(),
            volumes: Vec::new(),
            groups: Vec::new(),
            times: None,
            drawing: None,
            steps: Vec::new(),
            steps_from: 1,
            lines: Vec::new(),
            beforehand: Vec::new(),
            boxes: Vec::new(),
            cautions: Vec::new(),
            untested: None,
            stamp: self.stamp(block),
            alt: Alt {
                danger: self.words.alt.danger.to_owned(),
                ..Alt::default()
            },
            side: None,
            back: None,
        }
    }

    /// The small print of a block's card or label.
    pub(super) fn stamp(&self, block: &Block) -> String {
        stamp(self.notebook, self.words, Some(&block.id))
    }
}

/// Notebook, block and version, so that an old card can be found and destroyed; and that nobody reviewed the words.
pub(super) fn stamp(notebook: &Notebook, words: &Words, id: Option<&str>) -> String {
    let version = concat!("trayside ", env!("CARGO_PKG_VERSION"));
    let title = notebook.settings.title.get();
    let parts = title.map(|title| title.value.as_str()).into_iter().chain(id);
    let parts: Vec<&str> = parts.chain([version]).chain(words.unreviewed).collect();
    parts.join(" · ")
}
