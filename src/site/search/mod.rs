//! The search: what it finds, as scripts that a page loads by itself, from a folder as well as from a server.
//!
//! A script in the page may not read another file of a folder, but it may load one as a script. So the index is cut into
//! small scripts, each of which hands its part to one function. Words lie together by their first letters and tell the
//! pages they stand on; what stands on those pages lies in other shards, and only those of the best pages are loaded.
//!
//! Words are kept page by page ([`PageIndex`]), so that after a save only that page is read again. A page has a number of
//! its own, made from its path: a new page moves no other, and an edit changes the shards of the words that came or went
//! and the one shard that its text lies in.

mod entries;
mod shards;
pub(super) mod strip;
mod words;

use super::prose::Prose;
use crate::source::ByName;
use crate::views::page::{FindingView, PageView};
use entries::Entry;

pub(super) use shards::{Kept, files};

/// How much a word counts, by where on a page it stands best.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Rank {
    /// In the page's title.
    Title,
    /// In a heading or a tag.
    Heading,
    /// In the name of a block.
    Block,
    /// Anywhere else.
    Text,
}

const RANKS: usize = 4;

/// What the search has to know of one page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct PageIndex {
    /// The page's words by rank, each once, in order, with a space after each.
    words: [String; RANKS],
    /// The page as it is found: path, title, date and entries, as the inside of a JSON array.
    record: String,
}

impl PageIndex {
    /// Reads a page. `loose` are the findings that stand below its text.
    pub(super) fn of(page: &PageView<'_>, prose: &Prose<'_>, loose: &[&FindingView]) -> Self {
        let entries = entries::of(page, prose, loose);
        Self {
            words: by_rank(page, &entries),
            record: record(page, &entries),
        }
    }
}

fn by_rank(page: &PageView<'_>, entries: &[Entry]) -> [String; RANKS] {
    let mut folded: Vec<(String, Rank)> = Vec::new();
    let mut add = |text: &str, rank: Rank| folded.push((crate::syntax::fold(text), rank));
    for tag in &page.tags {
        add(tag, Rank::Heading);
    }
    for entry in entries {
        let rank = match entry.kind.as_str() {
            "page" => Rank::Title,
            "section" => Rank::Heading,
            _ => Rank::Block,
        };
        add(&entry.title, rank);
        add(&entry.text, Rank::Text);
    }
    let mut ranks: ByName<&str, Rank> = ByName::default();
    for (text, rank) in &folded {
        for word in words::words(text) {
            let known = ranks.get_or(word, *rank);
            *known = *rank.min(known);
        }
    }
    let mut words = [const { String::new() }; RANKS];
    for (word, rank) in ranks.iter() {
        if let Some(all) = words.get_mut(*rank as usize) {
            all.push_str(word);
            all.push(' ');
        }
    }
    words
}

fn record(page: &PageView<'_>, entries: &[Entry]) -> String {
    let entries: Vec<[&str; 4]> = entries
        .iter()
        .map(|entry| {
            [
                entry.kind.as_str(),
                entry.anchor.as_str(),
                entry.title.as_str(),
                entry.text.as_str(),
            ]
        })
        .collect();
    let date = page.date.as_deref().unwrap_or("");
    let whole = serde_json::json!([page.path, page.title, date, entries]).to_string();
    let inside = whole.strip_prefix('[').and_then(|rest| rest.strip_suffix(']'));
    inside.unwrap_or("").to_owned()
}
