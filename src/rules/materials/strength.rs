//! Materials that are sold in any strength, vinegar and acetic acid apart.

use crate::facts::{Dose, Known};
use crate::pantry::{Material, NOTEBOOK_SOURCE};

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
