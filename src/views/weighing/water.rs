//! What becomes of the water: put in, brought along by crystals, kept back by the plant, filled up at the end.

use crate::facts::Way;
use crate::notebook::Water;
use crate::scale::water as scale;
use crate::units::{Digits, Dimension, Range, show};

use super::rows::Seen;
use crate::views::amounts::is_made_up;
use crate::views::words::Words;

/// The lines about water, for so many litres of finished bath.
pub(super) fn lines(seen: &Seen<'_>, litres: f64) -> Vec<String> {
    let bath = seen.bath;
    let of_parts = bath.recipe.parts.iter().map(|part| &part.water);
    let waters: Vec<&Water> = of_parts
        .chain([&bath.recipe.water])
        .filter_map(|water| water.get())
        .collect();
    // A weighed water is the whole of it, and without any stated nothing can be said.
    if waters.is_empty() || !is_made_up(bath) {
        return Vec::new();
    }
    let millilitres = |water: &&Water| match water.amount.dimension {
        Dimension::Volume => water.amount.range.scale(1000.0 * seen.multiple),
        _ => water.amount.range.scale(seen.multiple),
    };
    let mut put_in = waters
        .iter()
        .map(millilitres)
        .fold(Range::ZERO, |all, one| all + one);
    let mut kept = Range::ZERO;
    let mut guessed = false;
    for (index, dose) in bath.doses.iter().enumerate() {
        let way = seen.weighing.shelf().way(dose);
        let material = match way {
            Way::OtherForm(packet, _) => Some(packet.material),
            _ => dose.material(),
        };
        if let (Some(grams), Some(formula)) = (
            seen.weighed(index, dose),
            material.and_then(|material| material.formula.as_ref()),
        ) {
            put_in = put_in + scale::of_crystals(grams, formula);
        }
        let taken = bath
            .litres()
            .and_then(|makes| seen.weighing.shelf().takes(dose, makes));
        if let Some((poured, Dimension::Volume)) = taken {
            put_in = put_in + poured.scale(1000.0 * seen.multiple);
        }
        let made = bath.litres().unwrap_or(Range::exact(litres));
        if let Some(back) = dose.keeps_back(made) {
            guessed = true;
            kept = kept + back.scale(seen.multiple);
        }
    }
    let volume = |range: Range, digits| {
        show(
            range.scale(0.001),
            Dimension::Volume,
            Digits::Significant(digits),
            seen.style,
        )
    };
    let say = &seen.words.sheet;
    let mut lines = Vec::new();
    if guessed {
        lines.push(Words::fill(say.plant_keeps, &volume(kept, 2)));
    }
    let up = scale::top_up(Range::exact(litres * 1000.0), put_in, kept);
    let finished = volume(Range::exact(litres * 1000.0), 3);
    lines.push(if up.high < -0.001 * litres * 1000.0 {
        Words::fill_all(say.parts_exceed, &[&volume(up.scale(-1.0), 2), &finished])
    } else {
        let up = Range::new(up.low.max(0.0), up.best.max(0.0), up.high);
        Words::fill_all(say.fill_up, &[&volume(up, 2), &finished])
    });
    lines
}
