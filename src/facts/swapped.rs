//! A bath as a batch mixed it: at the batch's volume, with what was taken instead.

use crate::notebook::{Addition, Batch, Figure, Notebook, Slot, Swap, Water};
use crate::units::Dimension;

use super::bath::Bath;
use super::dose::{dose, known};

/// A recipe's bath as a batch mixed it. Its volume is the batch's, the recipe's amounts follow that, and an amount of a swap
/// is what was taken for it. A material that the recipe does not have comes on top, and an amount of zero leaves one out.
///
/// Where either volume cannot be read, an amount that was taken says nothing, and the bath is incomplete.
pub fn swapped(notebook: &Notebook, bath: &Bath, batch: &Batch) -> Bath {
    let mut mixed = match share(bath, batch) {
        Some(share) => at_volume(bath, share),
        None => bath.clone(),
    };
    mixed.complete &= !batch.incomplete;
    for swap in &batch.swaps {
        match swap {
            Swap::Amount(addition) => {
                let measured = addition.amount.range.high > 0.0 && follows_volume(addition.amount.dimension);
                mixed.complete &= !measured || share(bath, batch).is_some();
                with_amount(notebook, &mut mixed, addition);
            }
            Swap::Material { from, to } => {
                let name = &from.value;
                if let Some(dose) = mixed.doses.iter_mut().find(|dose| dose.name.value == *name) {
                    dose.known = known(notebook, &to.value);
                    dose.name = to.clone();
                }
            }
        }
    }
    mixed
}

/// A batch's volume over that which its recipe makes.
fn share(bath: &Bath, batch: &Batch) -> Option<f64> {
    let (volume, makes) = (batch.volume.get()?.range.best, bath.litres()?.best);
    let share = volume / makes;
    (share.is_finite() && share > 0.0).then_some(share)
}

/// Whether so much of a material is more where more is mixed: a strength is not.
fn follows_volume(dimension: Dimension) -> bool {
    matches!(
        dimension,
        Dimension::Mass | Dimension::Volume | Dimension::Count | Dimension::AmountOfSubstance
    )
}

/// So many times as much of a bath.
fn at_volume(bath: &Bath, share: f64) -> Bath {
    let mut bath = bath.clone();
    let scale = |figure: &mut Figure| {
        if follows_volume(figure.dimension) {
            figure.amount = figure.amount.scaled(share);
        }
    };
    let water = |water: &mut Slot<Water>| {
        if let Slot::Is(water) = water {
            scale(&mut water.amount);
        }
    };
    let makes = |makes: &mut Slot<Figure>| {
        if let Slot::Is(makes) = makes {
            scale(makes);
        }
    };
    bath.doses.iter_mut().for_each(|dose| scale(&mut dose.amount));
    makes(&mut bath.recipe.makes);
    water(&mut bath.recipe.water);
    for part in &mut bath.recipe.parts {
        makes(&mut part.makes);
        water(&mut part.water);
    }
    bath
}

fn with_amount(notebook: &Notebook, bath: &mut Bath, addition: &Addition) {
    let name = &addition.material.value;
    if addition.amount.range.high <= 0.0 {
        bath.doses.retain(|dose| dose.name.value != *name);
        return;
    }
    match bath.doses.iter_mut().find(|dose| dose.name.value == *name) {
        Some(held) => *held = dose(notebook, held.part.clone(), addition),
        None => bath.doses.push(dose(notebook, None, addition)),
    }
}
