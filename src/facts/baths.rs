//! The baths of a notebook: by their recipes as they are now, and of batches by their recipes as they were.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::Arc;

use crate::notebook::{Batch, Body, Notebook, Session};

use super::bath::{Bath, bath};

/// Every recipe's bath.
#[derive(Debug, Clone, Default)]
pub struct Baths {
    baths: BTreeMap<String, Arc<Bath>>,
    /// The baths of batches that were mixed by an earlier text of their recipe, by the batch's id.
    earlier: BTreeMap<String, Arc<Bath>>,
}

impl Baths {
    /// Looks everything up.
    pub fn of(notebook: &Notebook) -> Self {
        let mut baths = BTreeMap::new();
        for block in &notebook.blocks {
            if let Body::Recipe(recipe) = &block.body
                && !block.doubled
            {
                let base = |id: &str| notebook.recipe(id);
                baths.insert(block.id.clone(), Arc::new(bath(notebook, &base, block, recipe)));
            }
        }
        let mut of_texts: BTreeMap<(&str, &str), Arc<Bath>> = BTreeMap::new();
        let mut earlier = BTreeMap::new();
        for block in &notebook.blocks {
            let Body::Batch(batch) = &block.body else { continue };
            let (Some(of), Some(was)) = (batch.of.get(), notebook.earlier(&block.id)) else {
                continue;
            };
            let Some((written, recipe)) = was.recipe() else {
                continue;
            };
            let text = of_texts.entry((&was.path, &of.value)).or_insert_with(|| {
                let bath = bath(notebook, &|id| was.base(id), written, recipe);
                // It goes by the name that the recipe has now.
                let id = of.value.clone();
                Arc::new(Bath { id, ..bath })
            });
            earlier.insert(block.id.clone(), Arc::clone(text));
        }
        Self { baths, earlier }
    }

    /// The bath of a recipe's id.
    pub fn get(&self, id: &str) -> Option<&Bath> {
        self.baths.get(id).map(Arc::as_ref)
    }

    /// The bath of a batch by its recipe, as that was when the batch was mixed; swaps are not in it.
    pub fn of_batch(&self, id: &str, batch: &Batch) -> Option<&Bath> {
        let of = batch.of.get()?;
        match self.earlier.get(id) {
            Some(earlier) => Some(earlier),
            None => self.get(&of.value),
        }
    }

    /// Whether a batch was mixed by an earlier text of its recipe.
    pub fn is_earlier(&self, batch: &str) -> bool {
        self.earlier.contains_key(batch)
    }

    /// The baths as they were in a session: those of its batches by the recipes as they were mixed.
    pub fn in_session(&self, session: &Session) -> Cow<'_, Self> {
        let mut baths = Cow::Borrowed(self);
        for (recipe, batch) in &session.baths {
            if let Some(earlier) = self.earlier.get(&batch.value)
                && earlier.id == recipe.value
            {
                let was = Arc::clone(earlier);
                baths.to_mut().baths.insert(recipe.value.clone(), was);
            }
        }
        baths
    }

    /// Puts a bath in the place of the one with its id.
    pub(super) fn put(&mut self, bath: Bath) {
        self.baths.insert(bath.id.clone(), Arc::new(bath));
    }

    /// Every bath, by id.
    pub fn iter(&self) -> impl Iterator<Item = &Bath> {
        self.baths.values().map(Arc::as_ref)
    }
}
