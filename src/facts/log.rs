//! Which sessions used which recipe and which batch: looked up once, asked often.

use std::collections::BTreeMap;

use crate::notebook::{Block, Notebook, Session};

/// The sessions of a notebook by what they used, each in reading order.
#[derive(Debug, Default)]
pub struct Log<'n> {
    of_recipe: BTreeMap<&'n str, Vec<(&'n Block, &'n Session)>>,
    of_batch: BTreeMap<&'n str, Vec<(&'n Block, &'n Session)>>,
}

impl<'n> Log<'n> {
    /// Reads every session once.
    pub fn of(notebook: &'n Notebook) -> Self {
        let mut log = Self::default();
        for (block, session) in notebook.sessions() {
            for (recipe, batch) in &session.baths {
                log.of_recipe
                    .entry(&recipe.value)
                    .or_default()
                    .push((block, session));
                log.of_batch
                    .entry(&batch.value)
                    .or_default()
                    .push((block, session));
            }
        }
        log
    }

    /// The sessions that used a recipe.
    pub fn of_recipe(&self, id: &str) -> &[(&'n Block, &'n Session)] {
        self.of_recipe.get(id).map_or(&[], Vec::as_slice)
    }

    /// The sessions that used a batch.
    pub fn of_batch(&self, id: &str) -> &[(&'n Block, &'n Session)] {
        self.of_batch.get(id).map_or(&[], Vec::as_slice)
    }
}
