//! Activity coefficients by specific ion interaction theory: a second opinion.
//!
//! As used by the Nuclear Energy Agency's thermochemical data base (Grenthe, Mompean, Spahiu and Wanner, TDB-2, 2013):
//! one denominator of 1.5, one coefficient for each pair of unlike charge, neutral species by 0.1 I.

use std::f64::consts::LN_10;

use super::data::SPECIES;
use super::problem::Problem;

/// Natural logarithms of the activity coefficients at these molalities, in compact order; and the ionic strength.
pub(super) fn log_gammas(problem: &Problem<'_>, molal: &[f64; SPECIES]) -> ([f64; SPECIES], f64) {
    let ions = problem.cations + problem.anions;
    let (cations, rest) = molal.split_at(problem.cations);
    let anions = &rest[..problem.anions];
    let mut strength = 0.0;
    for (m, z) in molal[..ions].iter().zip(&problem.charges) {
        strength += 0.5 * m * z * z;
    }
    let root = strength.sqrt();
    let slope = -problem.conditions.slope * root / (1.0 + 1.5 * root);
    let mut log_gamma = [0.0; SPECIES];
    let (of_cations, of_rest) = log_gamma.split_at_mut(problem.cations);
    for ((row, &mc), of_cation) in problem.pairs.iter().zip(cations).zip(of_cations) {
        for ((pair, &ma), of_anion) in row.iter().zip(anions).zip(of_rest.iter_mut()) {
            *of_cation += pair.beta0 * ma;
            *of_anion += pair.beta0 * mc;
        }
    }
    for (log, z) in log_gamma[..ions].iter_mut().zip(&problem.charges) {
        *log = LN_10 * (*log + z * z * slope);
    }
    for log in &mut log_gamma[ions..problem.count] {
        *log = LN_10 * 0.1 * strength;
    }
    (log_gamma, strength)
}
