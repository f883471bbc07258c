//! What a bath would come to if something else had been taken.

use crate::facts::{Bath, Solution, known, solve_bath};
use crate::notebook::Notebook;
use crate::pantry::Property;
use crate::units::{Digits, Dimension, Range, Style, show};

/// A band of pH as text.
pub(super) fn as_ph(ph: Range, style: Style) -> String {
    show(ph, Dimension::PH, Digits::Decimals(1), style)
}

/// What the same weight of anhydrous soda would give in place of the soda that is there.
pub(super) fn other_soda(
    notebook: &Notebook,
    bath: &Bath,
    solution: &Solution,
    style: Style,
) -> Option<String> {
    let mut other = bath.clone();
    let soda = other
        .doses
        .iter_mut()
        .find(|dose| dose.is(Property::Bicarbonate) || dose.is(Property::Carbonate))?;
    let name = soda.name.value.clone();
    soda.known = known(notebook, "washing soda, anhydrous");
    let would = solve_bath(notebook, &other).ok()?;
    if (would.band.best - solution.band.best).abs() < 0.05 {
        return None;
    }
    Some(format!(
        "as written {}; with the same weight of `washing soda, anhydrous` in place of `{name}` {}",
        as_ph(solution.ph(), style),
        as_ph(would.ph(), style)
    ))
}
