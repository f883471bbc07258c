//! The equilibrium: activity coefficients and balance of charge brought into agreement.

use std::f64::consts::LN_10;
use std::fmt;
use std::sync::Arc;

use super::bath::{Bath, GasMode};
use super::conditions::Conditions;
use super::data::{SLOTS, SPECIES};
use super::equilibrium::Equilibrium;
use super::problem::{Model, Problem};
use super::{pitzer, sit};

/// Coldest and warmest bath that is computed at all, in °C: the expressions for the constants end there.
pub(super) const COMPUTED: (f64, f64) = (0.0, 60.0);
/// Ionic strength above which no answer is given, in mol/kg: twice that to which the parameters were tried.
pub(super) const STRONGEST: f64 = 6.0;
/// Rounds after which the search is given up.
const ROUNDS: u32 = 200;

/// Why there is no answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CannotSolve {
    /// The bath is colder or warmer than the constants reach.
    Temperature {
        /// Its temperature in °C.
        celsius: f64,
    },
    /// There is no water, or its amount is no number.
    Water,
    /// An amount is negative or no number.
    Amount,
    /// The pressure of carbon dioxide is not above zero.
    Pressure,
    /// It holds more salt than the model knows.
    TooStrong {
        /// Ionic strength in mol/kg, if it was found.
        ionic_strength: Option<f64>,
    },
    /// The pH would lie below -2 or above 16.
    OutOfScale,
    /// The search did not settle.
    Unsettled {
        /// How many rounds were tried.
        rounds: u32,
    },
}

impl fmt::Display for CannotSolve {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Temperature { celsius } => write!(
                f,
                "at {celsius} °C the constants are not known: they reach from {} to {} °C",
                COMPUTED.0, COMPUTED.1
            ),
            Self::Water => f.write_str("there is no water to dissolve anything in"),
            Self::Amount => f.write_str("an amount is less than nothing, or no number"),
            Self::Pressure => f.write_str("the pressure of carbon dioxide must be above zero"),
            Self::TooStrong {
                ionic_strength: Some(strength),
            } => write!(
                f,
                "it holds too much salt: its ionic strength is {strength:.1} mol/kg, and the model ends at {STRONGEST} mol/kg"
            ),
            Self::TooStrong { ionic_strength: None } => {
                write!(
                    f,
                    "it holds too much salt: the model ends at an ionic strength of {STRONGEST} mol/kg"
                )
            }
            Self::OutOfScale => f.write_str("the pH would lie below -2 or above 16"),
            Self::Unsettled { rounds } => write!(f, "the computation did not settle in {rounds} rounds"),
        }
    }
}

impl std::error::Error for CannotSolve {}

/// What the search found, in compact order of the problem.
pub(super) struct Settled {
    pub(super) log_h: f64,
    pub(super) ionic_strength: f64,
    pub(super) molal: [f64; SPECIES],
    pub(super) log_gamma: [f64; SPECIES],
    pub(super) rounds: u32,
}

impl Settled {
    pub(super) fn ph(&self) -> f64 {
        -self.log_h / LN_10
    }
}

/// The equilibrium of a bath.
///
/// pH is on the conventional scale of the standard buffers. Outside 10–40 °C and above an ionic strength of 3 mol/kg the
/// result carries [warnings](Equilibrium::warnings); outside 0–60 °C and above 6 mol/kg there is none.
pub fn solve(bath: &Bath, gas: GasMode) -> Result<Equilibrium, CannotSolve> {
    check(bath, gas)?;
    let conditions = Arc::new(Conditions::at(bath.temperature()));
    solve_under(&conditions, bath, gas, None)
}

/// The same, searched from the equilibrium of a similar bath, which is faster. The answer does not depend on where the
/// search starts beyond the tenth decimal.
pub fn solve_near(bath: &Bath, gas: GasMode, near: &Equilibrium) -> Result<Equilibrium, CannotSolve> {
    check(bath, gas)?;
    if near.conditions().celsius == bath.temperature().celsius() && near.conditions().moved_pair.is_none() {
        return solve_under(near.conditions(), bath, gas, Some(near));
    }
    let conditions = Arc::new(Conditions::at(bath.temperature()));
    solve_under(&conditions, bath, gas, Some(near))
}

pub(super) fn check(bath: &Bath, gas: GasMode) -> Result<(), CannotSolve> {
    let celsius = bath.temperature().celsius();
    // Negated so that what is no number is refused too.
    if !(celsius >= COMPUTED.0 && celsius <= COMPUTED.1) {
        return Err(CannotSolve::Temperature { celsius });
    }
    let water = bath.water().kilograms();
    if !(water > 0.0 && water.is_finite()) {
        return Err(CannotSolve::Water);
    }
    if !bath
        .moles()
        .iter()
        .all(|total| *total >= -1e-15 * water && total.is_finite())
    {
        return Err(CannotSolve::Amount);
    }
    if let Some((pressure, _)) = gas.pressure()
        && !(pressure > 0.0 && pressure.is_finite())
    {
        return Err(CannotSolve::Pressure);
    }
    Ok(())
}

/// The equilibrium under conditions that may have been moved for the sake of a band.
pub(super) fn solve_under(
    conditions: &Arc<Conditions>,
    bath: &Bath,
    gas: GasMode,
    near: Option<&Equilibrium>,
) -> Result<Equilibrium, CannotSolve> {
    let totals = bath.molal();
    let (open, settled) = settle_gas(conditions, &totals, gas, Model::Pitzer, near)?;
    Ok(Equilibrium::new(conditions, bath, gas, &totals, open, &settled))
}

/// Settles at the carbon dioxide that `gas` allows; says at which activity of it the bath was held open, if it was.
pub(super) fn settle_gas<'a>(
    conditions: &'a Conditions,
    totals: &[f64; SLOTS],
    gas: GasMode,
    model: Model,
    near: Option<&Equilibrium>,
) -> Result<(Option<f64>, Placed<'a>), CannotSolve> {
    let carbon = totals[conditions.data.carbonic] > 0.0;
    let closed = |near| -> Result<Placed<'a>, CannotSolve> {
        let problem = Problem::new(conditions, totals, None, model);
        let settled = settle(&problem, near)?;
        Ok(Placed { problem, settled })
    };
    let open = |activity: f64, near| -> Result<Placed<'a>, CannotSolve> {
        let problem = Problem::new(conditions, totals, Some(activity), model);
        let settled = settle(&problem, near)?;
        Ok(Placed { problem, settled })
    };
    match gas.pressure() {
        None => Ok((None, closed(near)?)),
        Some((_, false)) if !carbon => Ok((None, closed(near)?)),
        Some((pressure, true)) => {
            let activity = conditions.henry * pressure;
            Ok((Some(activity), open(activity, near)?))
        }
        Some((pressure, false)) => {
            let activity = conditions.henry * pressure;
            // Gas only leaves: where the neighbour was open, try that first, and keep it if less carbon is left.
            if near.is_some_and(Equilibrium::is_open)
                && let Ok(tried) = open(activity, near)
                && tried.carbon() <= totals[conditions.data.carbonic]
            {
                return Ok((Some(activity), tried));
            }
            let held = closed(near)?;
            if held.carbon_dioxide_activity() > activity {
                return Ok((Some(activity), open(activity, None)?));
            }
            Ok((None, held))
        }
    }
}

/// What was found, with the problem that says which species stands where.
pub(super) struct Placed<'a> {
    pub(super) problem: Problem<'a>,
    pub(super) settled: Settled,
}

impl Placed<'_> {
    /// Sums over the carbonic species, in mol/kg.
    pub(super) fn carbon(&self) -> f64 {
        let data = self.problem.conditions.data;
        let mut sum = 0.0;
        for (at, molal) in self.places().zip(&self.settled.molal) {
            if data.species[at].slot == Some(data.carbonic) {
                sum += molal;
            }
        }
        sum
    }

    pub(super) fn places(&self) -> impl Iterator<Item = usize> {
        self.problem.species[..self.problem.count].iter().copied()
    }

    pub(super) fn carbon_dioxide_activity(&self) -> f64 {
        let data = self.problem.conditions.data;
        let acid = data.families[data.carbonic].first;
        let mut places = self.places();
        places.position(|at| at == acid).map_or(0.0, |at| {
            self.settled.molal[at] * libm::exp(self.settled.log_gamma[at])
        })
    }
}

/// Outer fixed point on activity coefficients, inner root of the balance of charge.
fn settle(problem: &Problem<'_>, near: Option<&Equilibrium>) -> Result<Settled, CannotSolve> {
    let mut log_gamma = [0.0; SPECIES];
    let mut log_h = -7.0 * LN_10;
    if let Some(near) = near {
        log_h = -LN_10 * near.ph();
        for (log, &at) in log_gamma.iter_mut().zip(&problem.species).take(problem.count) {
            *log = near.log_gamma(at);
        }
    }
    let mut last = f64::NAN;
    let mut last_steps = [0.0; SPECIES];
    let mut weight = 1.0;
    for round in 1..=ROUNDS {
        let balance = problem.balance(&log_gamma);
        log_h = balance.root(log_h).ok_or(CannotSolve::OutOfScale)?;
        let molal = balance.molalities(log_h);
        let (next, strength) = match problem.model {
            Model::Pitzer => pitzer::log_gammas(problem, &molal),
            Model::Sit => sit::log_gammas(problem, &molal),
        };
        // Far outside the model the coefficients run away and with them the search.
        if strength.is_nan() || strength >= 10.0 * STRONGEST {
            return Err(CannotSolve::TooStrong { ionic_strength: None });
        }
        let mut moved: f64 = 0.0;
        let (mut across, mut square) = (0.0, 0.0);
        for ((log, next), last) in log_gamma
            .iter()
            .zip(&next)
            .zip(&mut last_steps)
            .take(problem.count)
        {
            let step = next - *log;
            moved = moved.max(step.abs());
            let change = step - *last;
            across += *last * change;
            square += change * change;
            *last = step;
        }
        // Near the end the steps shrink by a steady factor, and Aitken's weight takes out most of what is left at once.
        weight = match () {
            () if round > 20 => 0.5,
            () if round > 1 && moved < 0.05 && square > 0.0 => (-weight * across / square).clamp(0.7, 1.4),
            () => 1.0,
        };
        for (log, step) in log_gamma.iter_mut().zip(&last_steps).take(problem.count) {
            *log += weight * step;
        }
        if !moved.is_finite() {
            return Err(CannotSolve::TooStrong { ionic_strength: None });
        }
        let turned = ((log_h - last) / LN_10).abs();
        last = log_h;
        // In an unbuffered bath the last digits of the pH are noise.
        let enough = if round < 30 { 1e-10 } else { 1e-8 };
        // A first round from a neighbour may happen upon its own coefficients; nothing has turned then.
        if moved < 1e-10 && (turned < enough || round == 1) {
            if strength > STRONGEST {
                return Err(CannotSolve::TooStrong {
                    ionic_strength: Some(strength),
                });
            }
            return Ok(Settled {
                log_h,
                ionic_strength: strength,
                molal,
                log_gamma,
                rounds: round,
            });
        }
    }
    Err(CannotSolve::Unsettled { rounds: ROUNDS })
}
