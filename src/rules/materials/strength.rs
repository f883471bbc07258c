//! Materials that are sold in any strength, vinegar and acetic acid apart.

use crate::facts::{Dose, Known};
use crate::notebook::Notebook;
use crate::pantry::{Material, NOTEBOOK_SOURCE, Property};
use crate::rules::substance::acetic;

/// The material of a dose, where it is of no fixed strength and neither its name nor the notebook says what it holds.
pub(super) fn unsaid(dose: &Dose) -> Option<&Material> {
    match &dose.known {
        Known::Material {
            material,
            strength: None,
        } => strength_open(material).then_some(material),
        _ => None,
    }
}

fn strength_open(material: &Material) -> bool {
    let said = material
        .contains
        .iter()
        .any(|share| share.amount.source() == NOTEBOOK_SOURCE);
    material.needs_strength && !said
}

/// Whether it is acetic acid in water.
pub(super) fn holds_acetic(notebook: &Notebook, material: &Material) -> bool {
    let own = material
        .formula
        .as_ref()
        .is_some_and(|formula| acetic(formula) > 0.0);
    let held = material.contains.iter().any(|share| {
        notebook
            .pantry
            .get(&share.material)
            .and_then(|held| held.formula.as_ref())
            .is_some_and(|formula| acetic(formula) > 0.0)
    });
    material.is(Property::Acid) && (own || held)
}
