//! How long a stop lasts: what developer it can take, and how many sheets bring that.

use super::bath::{Bath, GasMode};
use super::change::{NotReached, root_of, titration};
use super::solve::{CannotSolve, solve, solve_near};
use crate::units::scalar::Volume;

/// Litres of developer for each litre of stop that bring the stop to `limit`; by the water of the two baths.
///
/// The developer must be more alkaline than the limit and the stop more acid.
pub fn carry_over_limit(stop: &Bath, developer: &Bath, limit: f64, gas: GasMode) -> Result<f64, NotReached> {
    // The developer as much water as the stop, so that a share is a ratio.
    let per = stop.water().kilograms() / developer.water().kilograms();
    let mut last = solve(stop, gas)?;
    let ph = |ratio: f64| -> Result<f64, CannotSolve> {
        let mixed = stop.mixed_with(developer, ratio * per);
        last = solve_near(&mixed, gas, &last)?;
        Ok(last.ph())
    };
    root_of(ph, limit, 100.0)
}

/// Sheets after which a bath of `volume` has taken up `limit` litres of the former bath for each of its own, where every
/// sheet carries in and out the same `per_sheet`.
///
/// N = floor( ln(1 + v) / -ln(1 - c/V) ), from the dilution law of a tray that loses as much as it gains. `None` if the
/// volumes make no sense.
pub fn sheets_until(limit: f64, volume: Volume, per_sheet: Volume) -> Option<u32> {
    let part = per_sheet.litres() / volume.litres();
    if !(part > 0.0 && part < 1.0 && limit >= 0.0 && limit.is_finite()) {
        return None;
    }
    let sheets = (libm::log1p(limit) / -libm::log1p(-part)).floor();
    (sheets <= f64::from(u32::MAX)).then_some(sheets as u32)
}

/// Litres of the former bath that a bath of `volume` has taken up for each of its own after so many sheets: the inverse of
/// [`sheets_until`], v = (1 - c/V)^-N - 1. `None` if the volumes make no sense.
pub fn carried_in(sheets: f64, volume: Volume, per_sheet: Volume) -> Option<f64> {
    let part = per_sheet.litres() / volume.litres();
    if !(part > 0.0 && part < 1.0 && sheets >= 0.0) {
        return None;
    }
    let ratio = libm::expm1(-sheets * libm::log1p(-part));
    ratio.is_finite().then_some(ratio)
}

/// The pH of a stop once it has taken up these litres of developer for each of its own; by the water of the two baths.
pub fn ph_with_carry_over(
    stop: &Bath,
    developer: &Bath,
    ratios: &[f64],
    gas: GasMode,
) -> Result<Vec<f64>, CannotSolve> {
    let per = stop.water().kilograms() / developer.water().kilograms();
    let shares: Vec<f64> = ratios.iter().map(|ratio| ratio * per).collect();
    let curve = titration(stop, developer, &shares, gas)?;
    Ok(curve.into_iter().map(|(_, ph)| ph).collect())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn what_is_carried_in_is_the_inverse_of_how_many_sheets(sheets in 0_u32..2000, part in 0.0005..0.2_f64) {
            let (volume, each) = (Volume::from_litres(1.0), Volume::from_litres(part));
            let carried = carried_in(f64::from(sheets), volume, each);
            if let Some(carried) = carried {
                // A hair more, so that the floor does not take one away.
                let back = sheets_until(carried * (1.0 + 1e-9) + 1e-12, volume, each);
                prop_assert_eq!(back, Some(sheets));
            }
        }
    }
}
