//! What the tap's water brings into a bath besides water.

use crate::notebook::Notebook;
use crate::units::{Dimension, Range};

/// Grams of hydrogen carbonate in a mole: IUPAC's atomic weights of 2021.
const HYDROGEN_CARBONATE: f64 = 61.017;
/// Grams of chalk for a mole of hydrogen carbonate, where a waterworks counts its alkalinity as that: half of `CaCO3`.
const AS_CHALK: f64 = 100.09 / 2.0;

/// Moles of hydrogen carbonate in a litre of the notebook's tap water; none where it says nothing of its alkalinity.
///
/// In milligrams waterworks count it as itself or as chalk: the range holds both. A degree of hardness counts the metal, of
/// which each holds two of hydrogen carbonate.
pub(super) fn alkalinity(notebook: &Notebook) -> Option<Range> {
    let water = notebook.settings.water.get()?;
    let said = water.alkalinity.get()?;
    let range = said.range;
    Some(match said.dimension {
        Dimension::MassConcentration => Range::new(
            range.low / HYDROGEN_CARBONATE,
            range.best / HYDROGEN_CARBONATE,
            range.high / AS_CHALK,
        ),
        _ if said.amount.unit.symbol.starts_with('°') => range.scale(2.0),
        _ => range,
    })
}
