//! What becomes of the water: put in, brought along by crystals, kept back by the plant, filled up at the end.

use crate::scale::water as scale;
use crate::units::{Digits, Dimension, Range, show};

use super::rows::Seen;
use crate::views::scaling::WaterPlan;
use crate::views::words::Words;

/// The lines about water, for so many litres of finished bath.
pub(super) fn lines(seen: &Seen<'_>, litres: f64) -> Vec<String> {
    let Some(waters) = &seen.plan.waters else {
        return Vec::new();
    };
    let millilitres = |water: &WaterPlan| {
        let each = if water.litres { 1000.0 } else { 1.0 };
        water.range.scale(each * seen.multiple)
    };
    let mut put_in = waters
        .iter()
        .map(millilitres)
        .fold(Range::ZERO, |all, one| all + one);
    let mut kept = Range::ZERO;
    let mut guessed = false;
    for (index, dose) in seen.plan.doses.iter().enumerate() {
        if let (Some(grams), Some(share)) = (seen.weighed(index, dose), dose.water_share) {
            put_in = put_in + grams.scale(share);
        }
        if let Some(poured) = dose
            .takes
            .as_ref()
            .filter(|takes| takes.dimension == Dimension::Volume)
        {
            put_in = put_in + poured.range.scale(1000.0 * seen.multiple);
        }
        if let Some(back) = dose.keeps {
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
