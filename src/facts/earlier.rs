//! Whether a batch's recipe is still the one that it was mixed by.

use crate::notebook::{Batch, Notebook};

use super::fact::{Fact, Measure};

/// `recipe-changed` of a batch, with every key that is another now.
pub(super) fn recipe_changed(batch: &Batch, id: &str, notebook: &Notebook) -> Fact {
    let fact = Fact::new(
        "recipe-changed",
        Measure::Flag("changed since", "as it is now"),
        "the text of its recipe that was kept for it, beside the text now",
    );
    if batch.of.get().and_then(|of| notebook.recipe(&of.value)).is_none() {
        return fact.gap("its recipe is not known");
    }
    let Some(earlier) = notebook.earlier(id) else {
        return fact.flag(false);
    };
    let fact = fact.from("kept text", earlier.path.clone());
    let differences = earlier.differences.iter();
    differences
        .fold(fact, |fact, one| fact.from(one.what.to_string(), one.words()))
        .flag(!earlier.differences.is_empty())
}
