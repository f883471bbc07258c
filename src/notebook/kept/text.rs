//! A recipe's text as it is kept: its block and those that it is based on, each as a fence, so that it can be read alone.

use std::fmt::Write as _;

use crate::notebook::{Audience, Block, Kind, Notebook};
use crate::source::fnv_64;

use super::super::fences;

/// A recipe's text as it is now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecipeText {
    /// The fences, the recipe's own first.
    pub text: String,
    /// Whether any of them stands on a private page.
    pub private: bool,
}

impl RecipeText {
    /// The hash of the text.
    pub fn hash(&self) -> String {
        hash(&self.text)
    }
}

/// The hash of a kept text, as its file is named by it. Ends of lines, and what is blank at the end, do not count: tools that
/// carry files from one machine to another write those as they like.
pub(super) fn hash(text: &str) -> String {
    format!("{:016x}", fnv_64(&[plain(text).as_bytes()]))
}

fn plain(text: &str) -> String {
    text.replace("\r\n", "\n").trim_end().to_owned()
}

impl Notebook {
    /// The text of a recipe as it is now, with those it is based on; none where one of them cannot be read whole.
    pub fn recipe_text(&self, id: &str) -> Option<RecipeText> {
        let mut all = RecipeText {
            text: String::new(),
            private: false,
        };
        let (mut next, mut seen) = (Some(id), Vec::new());
        while let Some(id) = next {
            let (block, recipe) = self.recipe(id)?;
            let whole = !block.broken && !recipe.incomplete && !recipe.based_on.is_broken();
            if !whole || seen.contains(&id) {
                return None;
            }
            seen.push(id);
            let head = self.pages.get(self.page_at(block)?)?;
            all.private |= head.audience == Audience::Private;
            if !all.text.is_empty() {
                all.text.push('\n');
            }
            fenced(&self.text_of(block)?, &mut all.text);
            next = recipe.based_on.get().map(|base| base.value.as_str());
        }
        Some(all)
    }

    /// What stands in a block's fence.
    fn text_of(&self, block: &Block) -> Option<String> {
        let fences = &self.texts.get(self.page_at(block)?)?.fences;
        let after = fences.partition_point(|fence| fence.span.start <= block.span.start);
        let fence = fences.get(after.checked_sub(1)?)?;
        let pieces = fences::apart(fence, |word| Kind::from_word(word).is_some());
        let piece = pieces.iter().find(|piece| piece.span == block.span);
        piece.map(|piece| plain(&piece.text))
    }

    /// The place of a block's page among the pages.
    fn page_at(&self, block: &Block) -> Option<usize> {
        self.pages
            .binary_search_by_key(&block.page, |head| head.file)
            .ok()
    }
}

/// A text between marks longer than any that stand in it.
fn fenced(text: &str, out: &mut String) {
    let longest = text
        .lines()
        .map(str::trim_start)
        .map(|line| line.len() - line.trim_start_matches('`').len());
    let marks = "`".repeat(longest.max().unwrap_or(0).max(2) + 1);
    let _ = writeln!(out, "{marks}{}\n{text}\n{marks}", Kind::Recipe.word());
}
