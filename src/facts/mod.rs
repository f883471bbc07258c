//! Everything that follows from the notebook, computed once: each fact a value or the reason why there is none, with its
//! inputs, formula and sources.

mod bath;
mod fact;

pub use bath::{Bath, Baths, Dose, Known, known};
pub use fact::{Fact, Input, Measure, Value, canonical_unit};

use std::collections::BTreeMap;

use crate::notebook::Notebook;

/// All facts of a notebook.
#[derive(Debug, Default)]
pub struct Facts {
    /// What each recipe really holds.
    pub baths: Baths,
    by_block: BTreeMap<String, Vec<Fact>>,
}

impl Facts {
    /// Computes them all.
    pub fn of(notebook: &Notebook) -> Self {
        Self { baths: Baths::of(notebook), by_block: BTreeMap::new() }
    }

    /// The facts of a block, in the order of the language's table.
    pub fn of_block(&self, id: &str) -> &[Fact] {
        self.by_block.get(id).map_or(&[], Vec::as_slice)
    }

    /// The fact of a full name's two halves.
    pub fn get(&self, id: &str, name: &str) -> Option<&Fact> {
        self.of_block(id).iter().find(|fact| fact.name == name)
    }

    /// The fact of a full name such as `rosemary-soda.tea.volume`.
    pub fn named(&self, full: &str) -> Option<&Fact> {
        let (id, name) = full.split_once('.')?;
        self.get(id, name)
    }
}
