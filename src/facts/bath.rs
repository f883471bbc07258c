//! What a recipe really holds: `based on` filled in, every material looked up, every amount as grams or litres.
//!
//! Facts and rules read baths, not recipes: a rule that asks for a thiosulfate finds it under any name or formula.

use crate::notebook::{Block, Notebook, Recipe, Role};
use crate::pantry::Property;
use crate::source::Span;
use crate::units::Range;

use super::based_on::{Bases, merged};
use super::dose::{Dose, dose};

/// A recipe as it is mixed.
#[derive(Debug, Clone)]
pub struct Bath {
    /// The recipe's id.
    pub id: String,
    /// The recipe with everything that `based on` supplies.
    pub recipe: Recipe,
    /// Every material, in order of writing, parts first to last.
    pub doses: Vec<Dose>,
    /// Whether all of it could be read. Nothing may be concluded from what an incomplete bath lacks.
    pub complete: bool,
}

impl Bath {
    /// What the bath is for.
    pub fn role(&self) -> Option<Role> {
        self.recipe.role()
    }

    /// Where the role was written, else `fallback`.
    pub fn role_span(&self, fallback: Span) -> Span {
        self.recipe.role.get().map_or(fallback, |role| role.span)
    }

    /// The finished volume in litres.
    pub fn litres(&self) -> Option<Range> {
        self.recipe.makes.get().map(|makes| makes.range)
    }

    /// How many litres stand in the tray for each litre that is mixed: `1+3` makes four of one. None where the dilution
    /// cannot be read.
    pub fn thinning(&self) -> Option<Range> {
        let dilution = &self.recipe.usage.dilution;
        match dilution.get() {
            Some(dilution) => Some(dilution.range + 1.0),
            None if dilution.is_broken() => None,
            None => Some(Range::exact(1.0)),
        }
    }

    /// Litres of the bath as it is used: what the recipe makes, diluted as it says.
    pub fn working_litres(&self) -> Option<Range> {
        Some(self.litres()? * self.thinning()?)
    }

    /// Whether it takes the silver salt out: by its role, or because it holds a thiosulfate.
    pub fn fixes(&self) -> bool {
        self.role() == Some(Role::Fixer) || self.first(Property::Thiosulfate).is_some()
    }

    /// The first material with a property.
    pub fn first(&self, property: Property) -> Option<&Dose> {
        self.doses.iter().find(|dose| dose.is(property))
    }

    /// Every material with a property.
    pub fn all(&self, property: Property) -> impl Iterator<Item = &Dose> {
        self.doses.iter().filter(move |dose| dose.is(property))
    }

    /// Whether it holds an acid in its own right: vitamin C is one, but is there for what it gives to silver.
    pub fn acid(&self) -> Option<&Dose> {
        self.doses
            .iter()
            .find(|dose| dose.is(Property::Acid) && !dose.is(Property::Ascorbate))
    }
}

/// A recipe as it is mixed, with what `bases` have of it.
pub(super) fn bath<'n>(
    notebook: &Notebook,
    bases: &Bases<'n, '_>,
    block: &'n Block,
    recipe: &Recipe,
) -> Bath {
    let mut seen = vec![block.id.as_str()];
    let recipe = merged(bases, recipe, &mut seen);
    let mut doses = Vec::new();
    for addition in &recipe.add {
        doses.push(dose(notebook, None, addition));
    }
    for part in &recipe.parts {
        let name = part.name.get().map(|name| name.value.clone());
        for addition in &part.add {
            doses.push(dose(notebook, name.clone(), addition));
        }
    }
    let complete = !recipe.incomplete && !block.broken;
    Bath {
        id: block.id.clone(),
        recipe,
        doses,
        complete,
    }
}
