//! Acids that are strong enough to burn, and acetic acid in all its strengths.

use crate::facts::{Dose, Known};
use crate::notebook::Notebook;
use crate::pantry::{Material, Property, Strength, properties_of_formula};

use super::substance::{acetic, may_be};

/// Per cent from which on an acid burns (practice, within the GHS limits for mixtures).
const BURNS: f64 = 15.0;

/// Whether a dose is, or by its name may be, an acid that burns.
pub(super) fn may_burn(notebook: &Notebook, dose: &Dose) -> bool {
    match &dose.known {
        Known::Material { .. } | Known::Formula(_) => burns(notebook, &dose.known),
        _ => may_be(notebook, dose, Property::ConcentratedAcid),
    }
}

/// Whether what is known of a dose says that it burns.
pub(super) fn burns(notebook: &Notebook, known: &Known) -> bool {
    let Known::Material { material, strength } = known else {
        return matches!(known, Known::Formula(formula)
            if properties_of_formula(formula).contains(Property::ConcentratedAcid));
    };
    let strong = strength.is_none_or(|strength| strength.high >= BURNS);
    let written = strength.is_some_and(|strength| strength.high >= BURNS);
    let pure = *strength == Some(Strength::PURE);
    material.is(Property::ConcentratedAcid) && strong || (written || pure) && holds_acetic(notebook, material)
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
