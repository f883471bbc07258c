//! Everything that a notebook mixes: each recipe as written, and each batch with what was taken instead.

use std::borrow::Cow;

use crate::facts::{Bath, Dose, swapped};
use crate::finding::Grade;
use crate::notebook::{Batch, Block, Body, Swap};
use crate::pantry::Property;
use crate::source::Span;

use super::burning_acid::may_burn;
use super::context::Context;
use super::place::{self, hazard_place, place};
use super::substance::may_be;

/// A bath and the block that mixes it.
#[derive(Debug)]
pub(super) struct Mixture<'n> {
    /// The recipe or batch.
    pub block: &'n Block,
    /// What is mixed; of a batch so much as it made.
    pub bath: Cow<'n, Bath>,
    /// Of a batch, its recipe as that was when it was mixed.
    recipe: Option<&'n Bath>,
}

impl<'n> Mixture<'n> {
    /// Where to report a hazard that these materials make together. None for a batch that took nothing of it instead:
    /// its recipe says it.
    pub(super) fn at<'d>(&self, doses: impl IntoIterator<Item = &'d Dose>) -> Option<Span> {
        let spans = doses.into_iter().map(|dose| dose.name.span);
        match self.block.body {
            Body::Recipe(_) => Some(hazard_place(self.block, &self.bath, spans)),
            _ => place(self.block, spans),
        }
    }

    /// The materials of which a rule speaks that looks at each by itself; of a batch not those of which its recipe has
    /// it said under the same name.
    pub(super) fn spoken_of<'m>(
        &'m self,
        speaks: impl Fn(&Dose) -> bool + 'm,
    ) -> impl Iterator<Item = &'m Dose> {
        self.spoken_of_in(move |_, dose| speaks(dose))
    }

    /// The same, for a rule that asks what bath a material is in.
    pub(super) fn spoken_of_in<'m>(
        &'m self,
        speaks: impl Fn(&Bath, &Dose) -> bool + 'm,
    ) -> impl Iterator<Item = &'m Dose> {
        self.bath.doses.iter().filter(move |dose| {
            let said = |recipe: &Bath| {
                let mut own = recipe.doses.iter();
                own.any(|own| own.name.value == dose.name.value && speaks(recipe, own))
            };
            speaks(&self.bath, dose) && !self.recipe.is_some_and(said)
        })
    }

    /// How grave a rule that judges a bath as a whole finds this one. None for a batch that is no worse than its recipe.
    pub(super) fn judged(&self, judge: impl Fn(&Bath) -> Option<Grade>) -> Option<Grade> {
        let grade = judge(&self.bath)?;
        let said = self.recipe.and_then(judge);
        said.is_none_or(|said| grade < said).then_some(grade)
    }

    /// Where to report what is wrong with the bath as a whole: the first of these places in it, of a batch at least its
    /// first swap.
    pub(super) fn point(&self, spans: impl IntoIterator<Item = Span>) -> Option<Span> {
        place(self.block, spans).or_else(|| self.first_swap())
    }

    /// Where to report what is missing from it.
    pub(super) fn head(&self) -> Span {
        self.first_swap()
            .unwrap_or_else(|| place::head(self.block, &self.bath))
    }

    /// Whether it answers for itself: a recipe that is based on no other, or a batch.
    pub(super) fn own(&self) -> bool {
        match self.recipe {
            Some(_) => self.bath.complete,
            None => place::own(&self.bath),
        }
    }

    /// Of a batch, its recipe as that was when it was mixed.
    pub(super) fn recipe(&self) -> Option<&'n Bath> {
        self.recipe
    }

    /// Whether it is a batch.
    pub(super) fn is_batch(&self) -> bool {
        self.recipe.is_some()
    }

    /// Of a batch, where its volume stands.
    pub(super) fn volume(&self) -> Option<Span> {
        match &self.block.body {
            Body::Batch(batch) => batch.volume.get().map(|volume| volume.span),
            _ => None,
        }
    }

    fn first_swap(&self) -> Option<Span> {
        let Body::Batch(batch) = &self.block.body else {
            return None;
        };
        batch.swaps.first().map(|swap| match swap {
            Swap::Material { to, .. } => to.span,
            Swap::Amount(addition) => addition.amount.span,
        })
    }

    /// The first material that is, or by its name may be, what is asked for.
    pub(super) fn may_hold(&self, context: &Context<'_>, property: Property) -> Option<&Dose> {
        let mut doses = self.bath.doses.iter();
        doses.find(|dose| may_be(context.notebook, dose, property))
    }

    /// The first acid that burns, or by its name may.
    pub(super) fn may_burn(&self, context: &Context<'_>) -> Option<&Dose> {
        let mut doses = self.bath.doses.iter();
        doses.find(|dose| may_burn(context.notebook, dose))
    }
}

/// Every recipe, and every batch that took a material which its recipe does not hold.
pub(super) fn mixtures<'n>(context: &Context<'n>) -> impl Iterator<Item = &'n Mixture<'n>> + use<'n> {
    context
        .mixed
        .iter()
        .filter(|mixture| match (&mixture.block.body, mixture.recipe) {
            // Another amount of the same is the recipe's own affair.
            (Body::Batch(batch), Some(recipe)) => brings_new(recipe, batch),
            _ => true,
        })
}

/// Every recipe, and every batch that took something else or another amount. Most rules look at these: they are put together
/// once for all of them, and stand in [`Context::mixed`].
pub(super) fn mixed<'n>(context: &Context<'n>) -> Vec<Mixture<'n>> {
    let mut mixtures: Vec<Mixture<'n>> = context
        .baths()
        .map(|(block, bath)| Mixture {
            block,
            bath: Cow::Borrowed(bath),
            recipe: None,
        })
        .collect();
    mixtures.extend(of_batches(context, |_, batch| !batch.swaps.is_empty()));
    mixtures
}

/// Every other batch whose volume is not what its recipe makes: for rules that ask how much is weighed.
pub(super) fn of_other_volume<'n>(context: &Context<'n>) -> Vec<Mixture<'n>> {
    let other = of_batches(context, |recipe, batch| {
        let makes = recipe.litres().map(|makes| makes.best);
        let volume = batch.volume.get().map(|volume| volume.range.best);
        batch.swaps.is_empty() && volume.is_some() && volume != makes
    });
    other.collect()
}

fn of_batches<'c, 'n>(
    context: &'c Context<'n>,
    wanted: impl Fn(&Bath, &Batch) -> bool + 'c,
) -> impl Iterator<Item = Mixture<'n>> + 'c {
    context.notebook.batches().filter_map(move |(block, batch)| {
        let recipe = context.facts.baths.of_batch(&block.id, batch)?;
        wanted(recipe, batch).then(|| Mixture {
            block,
            bath: Cow::Owned(swapped(context.notebook, recipe, batch)),
            recipe: Some(recipe),
        })
    })
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
