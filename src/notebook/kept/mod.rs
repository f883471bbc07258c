//! What `kept/` holds: the texts of recipes, and by which of them each batch was mixed. So a batch stays what it was when its
//! recipe goes on.
//!
//! A file there is written once by a press, and never changed. Its name ends in a hash of what stands in it, so that two
//! machines that share the folder never write one file differently, and a file that was changed by hand is known for it.

mod differs;
mod folder;
mod text;
mod tie;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::finding::Finding;
use crate::source::{FileId, Sources};

use super::{Batch, Block, Body, Changes, Kind, Notebook, Recipe};

use folder::Folder;

pub use differs::{Difference, Stands, What};
pub use folder::is_kept;
pub use text::RecipeText;
pub use tie::Tie;

/// Where the texts of recipes are kept, from the notebook's folder.
pub const KEPT_RECIPES: &str = "kept/recipes";
/// Where it is kept which batch was mixed by which.
pub const KEPT_BATCHES: &str = "kept/batches";

/// An earlier text of a recipe, by which a batch was mixed.
#[derive(Debug, Clone, PartialEq)]
pub struct Earlier {
    /// Where it is kept.
    pub path: String,
    /// What of it is another now; empty where only words differ that make no other bath.
    pub differences: Vec<Difference>,
    /// Whether it stood on a private page.
    pub private: bool,
    /// The recipe, and those that it was based on.
    blocks: Vec<Block>,
}

impl Earlier {
    /// The recipe as it was.
    pub fn recipe(&self) -> Option<(&Block, &Recipe)> {
        self.blocks.first().and_then(as_recipe)
    }

    /// A recipe that it was based on.
    pub fn base(&self, id: &str) -> Option<(&Block, &Recipe)> {
        self.blocks
            .iter()
            .find(|block| block.id == id)
            .and_then(as_recipe)
    }

    /// The recipe and those that it was based on.
    pub fn recipes(&self) -> impl Iterator<Item = (&Block, &Recipe)> {
        self.blocks.iter().filter_map(as_recipe)
    }
}

fn as_recipe(block: &Block) -> Option<(&Block, &Recipe)> {
    match &block.body {
        Body::Recipe(recipe) => Some((block, recipe)),
        _ => None,
    }
}

/// What is known from `kept/`.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct KeptRecipes {
    /// The batches that were mixed by another text than their recipe has now.
    earlier: BTreeMap<String, Arc<Earlier>>,
    /// The batches that need no text kept.
    tied: BTreeSet<String>,
}

/// What a press keeps for a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToKeep {
    /// The batch.
    pub batch: String,
    /// When it was mixed, as written.
    pub made: String,
    /// Its recipe.
    pub of: String,
    /// The recipe's text.
    pub text: RecipeText,
}

/// The hash that the name of a kept file ends in, for what stands in it.
pub fn kept_hash(text: &str) -> String {
    text::hash(text)
}

impl Notebook {
    /// The earlier text that a batch was mixed by; none where its recipe is as it was, or nobody kept it.
    pub fn earlier(&self, batch: &str) -> Option<&Earlier> {
        self.kept.earlier.get(batch).map(Arc::as_ref)
    }

    /// Whether any batch was mixed by an earlier text.
    pub fn has_earlier(&self) -> bool {
        !self.kept.earlier.is_empty()
    }

    /// Whether the recipe of a batch makes another bath now than it did then.
    pub fn has_changed_since(&self, batch: &str) -> bool {
        self.earlier(batch)
            .is_some_and(|earlier| !earlier.differences.is_empty())
    }

    /// What is to be kept: the texts of recipes for batches that have none yet. A batch or recipe that cannot be read whole has
    /// to wait.
    pub fn to_keep(&self) -> Vec<ToKeep> {
        let mut texts: BTreeMap<&str, Option<RecipeText>> = BTreeMap::new();
        let mut wanted = Vec::new();
        for (block, batch) in self.mixed() {
            let (Some(of), Some(made)) = (batch.of.get(), batch.made.get()) else {
                continue;
            };
            if block.broken
                || !block.named
                || batch.volume.get().is_none()
                || self.kept.tied.contains(&block.id)
            {
                continue;
            }
            let text = texts
                .entry(&of.value)
                .or_insert_with(|| self.recipe_text(&of.value));
            if let Some(text) = text {
                wanted.push(ToKeep {
                    batch: block.id.clone(),
                    made: made.value.written.clone(),
                    of: of.value.clone(),
                    text: text.clone(),
                });
            }
        }
        wanted
    }

    /// Takes in what the files of `kept/` say; `before` is what those of an earlier reading said, and `changes` are told of
    /// batches for which that is another now.
    pub fn take_kept(
        &mut self,
        sources: &Sources,
        files: &[FileId],
        before: &KeptRecipes,
        changes: &mut Changes,
    ) -> Vec<Finding> {
        let mut findings = Vec::new();
        self.kept = Folder::of(self, sources, files, &mut findings).assigned(&mut findings);
        let ids = before.earlier.keys().chain(self.kept.earlier.keys());
        let other = ids.filter(|id| before.earlier.get(*id) != self.kept.earlier.get(*id));
        let other: Vec<String> = other.cloned().collect();
        if !other.is_empty() {
            changes.kinds.insert(Kind::Batch);
            changes.ids.extend(other);
        }
        findings
    }

    /// The batches that their ids stand for.
    fn mixed(&self) -> impl Iterator<Item = (&Block, &Batch)> {
        self.batches().filter(|(block, _)| !block.doubled)
    }
}
