//! What a millilitre of a liquid weighs at the strength that is written beside its name.

use crate::pantry::{Figure, Formula, Material, PercentBasis, Strength};
use crate::units::Range;

/// Water at 20 °C, g/ml: the IAPWS-95 formulation gives 0.99821.
const WATER: f64 = 0.998;
/// Acetic acid in water at 20 °C, g/ml, by tenths of its share by mass. From memory of handbook tables, unverified.
const ACETIC: [f64; 11] = [
    0.998, 1.012, 1.026, 1.038, 1.049, 1.057, 1.064, 1.068, 1.070, 1.066, 1.049,
];
/// How far the table may be off, as a part. From memory, unverified.
const UNSURE: f64 = 0.003;

/// Grams in a millilitre of a material; of a pure liquid of which a strength by mass is known, of its solution in water.
///
/// Of what no table is here it lies between water and the packet, best where their masses are mixed: from memory, unverified.
pub(super) fn density(material: &Material, strength: Option<Strength>) -> Option<Range> {
    let packet = material.density.as_ref().map(Figure::range)?;
    let by_mass =
        |strength: &Strength| strength.basis == Some(PercentBasis::ByMass) && *strength != Strength::PURE;
    let (Some(strength), Some(formula)) = (strength.filter(by_mass), &material.formula) else {
        return Some(packet);
    };
    let share = strength.share();
    if is_acetic(formula) {
        // It is heaviest at about 80 %, so that a range of strengths may hold more than its ends.
        let ends = [share.low, share.best, share.high].map(acetic);
        let (low, high) = ends.iter().fold((ends[1], ends[1]), |(low, high), end| {
            (low.min(*end), high.max(*end))
        });
        return Some(Range::new(low * (1.0 - UNSURE), ends[1], high * (1.0 + UNSURE)));
    }
    let best = WATER + share.best * (packet.best - WATER);
    Some(Range::new(packet.low.min(WATER), best, packet.high.max(WATER)))
}

fn is_acetic(formula: &Formula) -> bool {
    ["CH3COOH", "C2H4O2"]
        .iter()
        .filter_map(|written| Formula::parse(written).ok())
        .any(|acetic| acetic.elements() == formula.elements())
}

fn acetic(share: f64) -> f64 {
    let tenths = (share * 10.0).clamp(0.0, 10.0);
    let below = libm::floor(tenths);
    let points = ACETIC
        .windows(2)
        .zip(0_u8..)
        .find(|(_, at)| f64::from(*at) == below);
    match points {
        Some(([from, to], _)) => from + (tenths - below) * (to - from),
        _ => 1.049,
    }
}
