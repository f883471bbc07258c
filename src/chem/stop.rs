//! How long a stop lasts: what developer it can take, and how many sheets bring that.

use super::bath::{Bath, GasMode};
use super::change::{NotReached, root_of};
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
