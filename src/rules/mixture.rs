//! Everything that a notebook mixes: each recipe as written, and each batch with what was taken instead.

use std::borrow::Cow;

use crate::facts::{Bath, Dose, swapped};
use crate::notebook::{Batch, Block, Body, Swap};
use crate::pantry::Property;
use crate::source::Span;

use super::context::Context;
use super::place::{hazard_place, place};
use super::substance::may_be;

/// A bath and the block that mixes it.
#[derive(Debug)]
pub(super) struct Mixture<'n> {
    /// The recipe or batch.
    pub block: &'n Block,
    /// What is mixed.
    pub bath: Cow<'n, Bath>,
}

impl Mixture<'_> {
    /// Where to report a hazard that these materials make together. None for a batch that took nothing of it instead:
    /// its recipe says it.
    pub(super) fn at<'d>(&self, doses: impl IntoIterator<Item = &'d Dose>) -> Option<Span> {
        let spans = doses.into_iter().map(|dose| dose.name.span);
        match self.block.body {
            Body::Recipe(_) => Some(hazard_place(self.block, &self.bath, spans)),
            _ => place(self.block, spans),
        }
    }

    /// The first material that is, or by its name may be, what is asked for.
    pub(super) fn may_hold(&self, context: &Context<'_>, property: Property) -> Option<&Dose> {
        let mut doses = self.bath.doses.iter();
        doses.find(|dose| may_be(context.notebook, dose, property))
    }
}

/// Every recipe, and every batch that took a material which its recipe does not hold.
pub(super) fn mixtures<'n>(context: &Context<'n>) -> Vec<Mixture<'n>> {
    let mut mixtures: Vec<Mixture<'n>> = context
        .baths()
        .map(|(block, bath)| Mixture {
            block,
            bath: Cow::Borrowed(bath),
        })
        .collect();
    for (block, batch) in context.notebook.batches() {
        let recipe = context.facts.baths.of_batch(&block.id, batch);
        // Another amount of the same is the recipe's own affair.
        if let Some(bath) = recipe.filter(|bath| brings_new(bath, batch)) {
            mixtures.push(Mixture {
                block,
                bath: Cow::Owned(swapped(context.notebook, bath, batch)),
            });
        }
    }
    mixtures
}

fn brings_new(bath: &Bath, batch: &Batch) -> bool {
    batch.swaps.iter().any(|swap| match swap {
        Swap::Material { .. } => true,
        Swap::Amount(addition) => bath
            .doses
            .iter()
            .all(|dose| dose.name.value != addition.material.value),
    })
}
