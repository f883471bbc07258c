//! What a little more or less of something does: buffering, how much reaches a pH, what one alkali is worth in another.

use std::fmt;

use super::bath::{Bath, GasMode};
use super::component::{Component, NotKnown};
use super::solve::{CannotSolve, solve, solve_near};
use crate::units::scalar::{AmountOfSubstance, Molality};

/// Step of strong base by which buffering is measured, in mol/kg.
const STEP: f64 = 1e-4;
/// Below this buffer capacity, in mol/kg per unit of pH, a computed pH says nothing: traces decide. Assumed here, between
/// plain thiosulfate (4e-5) and the same with a little sulfite (2e-4).
const UNBUFFERED: f64 = 1.5e-4;
/// The most that is added in search of a pH, in mol/kg.
const MOST: f64 = 20.0;

/// Why a pH is not reached.
#[derive(Debug, Clone, PartialEq)]
pub enum NotReached {
    /// The bath is there or beyond before anything is added.
    Already {
        /// Its pH.
        ph: f64,
    },
    /// However much is added, the pH comes no nearer than this.
    OutOfReach {
        /// The nearest pH that was found.
        nearest: f64,
    },
    /// The bath cannot be computed.
    Unsolved(CannotSolve),
}

impl fmt::Display for NotReached {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Already { ph } => write!(f, "the bath is at pH {ph:.2} before anything is added"),
            Self::OutOfReach { nearest } => {
                write!(
                    f,
                    "however much is added, the pH comes no nearer than {nearest:.2}"
                )
            }
            Self::Unsolved(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for NotReached {}

impl From<CannotSolve> for NotReached {
    fn from(error: CannotSolve) -> Self {
        Self::Unsolved(error)
    }
}

fn base() -> Result<(Component, Component), NotKnown> {
    Ok((Component::named("NaOH")?, Component::named("HCl")?))
}

/// Buffer capacity: strong base for each unit of pH, in mol per kg of water.
///
/// By adding 1e-4 mol/kg of caustic soda and as much hydrochloric acid.
pub fn buffer_capacity(bath: &Bath, gas: GasMode) -> Result<Molality, CannotSolve> {
    let Ok((caustic, acid)) = base() else {
        return Err(CannotSolve::Amount);
    };
    let start = solve(bath, gas)?;
    let moles = AmountOfSubstance::from_moles(STEP * bath.water().kilograms());
    let up = solve_near(&bath.add(&caustic, moles), gas, &start)?.ph();
    let down = solve_near(&bath.add(&acid, moles), gas, &start)?.ph();
    Ok(Molality::from_moles_per_kilogram(
        2.0 * STEP / (up - down).abs().max(1e-12),
    ))
}

/// The buffer capacity, if it is so small that the pH is set by whatever comes in and no pH should be shown.
///
/// Plain thiosulfate and plain salt are such baths.
pub fn unbuffered(bath: &Bath, gas: GasMode) -> Result<Option<Molality>, CannotSolve> {
    let capacity = buffer_capacity(bath, gas)?;
    Ok((capacity.moles_per_kilogram() < UNBUFFERED).then_some(capacity))
}

/// How much of a component brings a bath to a pH.
pub fn amount_to_reach(
    bath: &Bath,
    component: &Component,
    ph: f64,
    gas: GasMode,
) -> Result<AmountOfSubstance, NotReached> {
    let water = bath.water().kilograms();
    let mut last = solve(bath, gas)?;
    let after = |molality: f64| -> Result<f64, CannotSolve> {
        let moles = AmountOfSubstance::from_moles(molality * water);
        last = solve_near(&bath.add(component, moles), gas, &last)?;
        Ok(last.ph())
    };
    Ok(AmountOfSubstance::from_moles(root_of(after, ph, MOST)? * water))
}

/// How much of `other` does to a bath what `amount` of `component` does: the same pH.
pub fn equivalent_amount(
    bath: &Bath,
    component: &Component,
    amount: AmountOfSubstance,
    other: &Component,
    gas: GasMode,
) -> Result<AmountOfSubstance, NotReached> {
    let target = solve(&bath.add(component, amount), gas)?.ph();
    amount_to_reach(bath, other, target, gas)
}

/// The pH of a bath as growing shares of another are poured in: pairs of share and pH.
///
/// A share of 0.1 is a tenth of the other bath, whatever its size.
pub fn titration(
    bath: &Bath,
    other: &Bath,
    shares: &[f64],
    gas: GasMode,
) -> Result<Vec<(f64, f64)>, CannotSolve> {
    let mut last = solve(bath, gas)?;
    let mut curve = Vec::with_capacity(shares.len());
    for &share in shares {
        last = solve_near(&bath.mixed_with(other, share), gas, &last)?;
        curve.push((share, last.ph()));
    }
    Ok(curve)
}

/// The amount from nothing to `most` at which a monotone pH passes `target`.
pub(super) fn root_of(
    mut ph: impl FnMut(f64) -> Result<f64, CannotSolve>,
    target: f64,
    most: f64,
) -> Result<f64, NotReached> {
    /// How near the pH must come.
    const NEAR: f64 = 1e-9;
    let start = ph(0.0)?;
    if (start - target).abs() < NEAR {
        return Ok(0.0);
    }
    let rising = target > start;
    let beyond = |value: f64| if rising { value >= target } else { value <= target };
    let (mut low, mut low_ph) = (0.0, start);
    let mut high = 1e-6;
    let mut nearest = start;
    let mut high_ph = loop {
        match ph(high) {
            Ok(value) => {
                if beyond(value) {
                    break value;
                }
                // The first steps show that the component pushes the other way.
                if high >= 1e-3 && (value - start).abs() > 1e-6 && (value > start) != rising {
                    return Err(NotReached::Already { ph: start });
                }
                if (value - target).abs() < (nearest - target).abs() {
                    nearest = value;
                }
                (low, low_ph) = (high, value);
            }
            // Too strong before the pH was reached.
            Err(CannotSolve::TooStrong { .. } | CannotSolve::OutOfScale) => {
                return Err(NotReached::OutOfReach { nearest });
            }
            Err(error) => return Err(error.into()),
        }
        high *= 1.6;
        if high > most {
            return Err(NotReached::OutOfReach { nearest });
        }
    };
    // Regula falsi where it shortens the bracket, halving where it does not.
    for round in 0..200 {
        let width = high - low;
        let chord = low + width * (target - low_ph) / (high_ph - low_ph);
        let inside = chord > low + 1e-3 * width && chord < high - 1e-3 * width;
        let middle = if inside && round % 3 != 2 {
            chord
        } else {
            f64::midpoint(low, high)
        };
        let value = ph(middle)?;
        if (value - target).abs() < NEAR || width < 1e-14 * high {
            return Ok(middle);
        }
        if beyond(value) {
            (high, high_ph) = (middle, value);
        } else {
            (low, low_ph) = (middle, value);
        }
    }
    Ok(f64::midpoint(low, high))
}
