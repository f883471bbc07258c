//! Activity coefficients by Pitzer's equations, moved to the scale of the standard buffers.
//!
//! Pitzer, J. Phys. Chem. 77, 268 (1973); terms of like charges by Pitzer, J. Solution Chem. 4, 249 (1975). The last step
//! puts the chloride ion on the Bates–Guggenheim convention (Pure Appl. Chem. 1, 163, 1960), by which standard buffers
//! are assigned and meters set.

use std::f64::consts::LN_10;

use super::data::SPECIES;
use super::problem::Problem;

/// Universal constant b of the model, (kg/mol)^½.
const B: f64 = 1.2;
/// Highest charge for which parameters exist.
const CHARGES: usize = 3;

/// Natural logarithms of the activity coefficients at these molalities, in compact order; and the ionic strength.
pub(super) fn log_gammas(problem: &Problem<'_>, molal: &[f64; SPECIES]) -> ([f64; SPECIES], f64) {
    let slope = problem.conditions.slope;
    let a_phi = slope * LN_10 / 3.0;
    let ions = problem.cations + problem.anions;
    let (cations, rest) = molal.split_at(problem.cations);
    let anions = &rest[..problem.anions];
    let charges = &problem.charges;
    let anion_charges = &charges[problem.cations..ions];

    let (mut strength, mut total_charge) = (0.0, 0.0);
    let mut by_charge = [0.0; CHARGES];
    for (m, z) in molal[..ions].iter().zip(charges) {
        strength += 0.5 * m * z * z;
        total_charge += m * z.abs();
    }
    for (m, z) in anions.iter().zip(anion_charges) {
        by_charge[(-z) as usize - 1] += m;
    }
    let root = strength.sqrt();
    let (g, g_slope) = g(2.0 * root);
    let mut f = -a_phi * (root / (1.0 + B * root) + 2.0 / B * libm::log(1.0 + B * root));

    let mut log_gamma = [0.0; SPECIES];
    let (of_cations, of_rest) = log_gamma.split_at_mut(problem.cations);
    let (mut first_orders, mut thirds) = (0.0, 0.0);
    for ((row, &mc), of_cation) in problem.pairs.iter().zip(cations).zip(of_cations) {
        let mut sum = 0.0;
        for ((pair, &ma), of_anion) in row.iter().zip(anions).zip(of_rest.iter_mut()) {
            let term = 2.0 * (pair.beta0 + pair.beta1 * g) + total_charge * pair.c;
            sum += ma * term;
            *of_anion += mc * term;
            first_orders += mc * ma * pair.beta1;
            thirds += mc * ma * pair.c;
        }
        *of_cation += sum;
    }
    if strength > 0.0 {
        f += g_slope / strength * first_orders;
    }
    let (like, like_slope) = unlike_charges(a_phi, strength, &by_charge);
    f += like_slope;
    for (at, log) in log_gamma[..ions].iter_mut().enumerate() {
        let z = charges[at];
        *log += z * z * f + z.abs() * thirds;
        if z < 0.0 {
            *log += 2.0 * like[(-z) as usize - 1];
        }
    }
    for &(one, other, theta) in &problem.theta[..problem.thetas] {
        log_gamma[one] += 2.0 * theta * molal[other];
        log_gamma[other] += 2.0 * theta * molal[one];
    }
    for &(cation, one, other, psi) in &problem.psi[..problem.psis] {
        log_gamma[cation] += psi * molal[one] * molal[other];
        log_gamma[one] += psi * molal[cation] * molal[other];
        log_gamma[other] += psi * molal[cation] * molal[one];
    }
    for &(neutral, ion, lambda) in &problem.lambda[..problem.lambdas] {
        log_gamma[neutral] += 2.0 * lambda * molal[ion];
        log_gamma[ion] += 2.0 * lambda * molal[neutral];
    }
    let convention = -LN_10 * slope * root / (1.0 + 1.5 * root);
    let shift = convention - log_gamma[problem.chloride];
    for (log, z) in log_gamma[..ions].iter_mut().zip(charges) {
        *log -= z * shift;
    }
    (log_gamma, strength)
}

/// The function g of the model and `x g'(x) / 2`, which is `exp(-x) - g`; by their series where these would cancel.
fn g(x: f64) -> (f64, f64) {
    if x < 0.01 {
        let g = 1.0 + x * (-2.0 / 3.0 + x * (0.25 + x * (-1.0 / 15.0 + x / 72.0)));
        let slope = x * (-1.0 / 3.0 + x * (0.25 + x * (-0.1 + x / 36.0)));
        return (g, slope);
    }
    let decay = libm::exp(-x);
    let g = 2.0 * (1.0 - (1.0 + x) * decay) / (x * x);
    (g, decay - g)
}

/// What anions of unlike charge do to each other: for each charge the sum over the others of molality and Etheta, and
/// the sum over pairs of molalities and Etheta'.
///
/// Cations here all carry one charge and need no such term.
fn unlike_charges(a_phi: f64, strength: f64, by_charge: &[f64; CHARGES]) -> ([f64; CHARGES], f64) {
    let mut sums = [0.0; CHARGES];
    let mut slope = 0.0;
    let [one, two, three] = *by_charge;
    let pairs = usize::from(one > 0.0) + usize::from(two > 0.0) + usize::from(three > 0.0);
    if pairs < 2 || strength < 1e-9 {
        return (sums, slope);
    }
    let log_unit = libm::log(6.0 * a_phi * strength.sqrt());
    let mut table = [[None; CHARGES]; CHARGES];
    let mut look =
        |i: usize, j: usize| *table[i][j].get_or_insert_with(|| j_function(log_unit, (i + 1) * (j + 1)));
    for i in 0..CHARGES {
        for j in i + 1..CHARGES {
            if by_charge[i] > 0.0 && by_charge[j] > 0.0 {
                let product = ((i + 1) * (j + 1)) as f64;
                let (mixed, mixed_slope) = look(i, j);
                let (own, own_slope) = look(i, i);
                let (other, other_slope) = look(j, j);
                let theta = product / (4.0 * strength) * (mixed - 0.5 * own - 0.5 * other);
                let theta_slope = -theta / strength
                    + product / (8.0 * strength * strength)
                        * (mixed_slope - 0.5 * own_slope - 0.5 * other_slope);
                sums[i] += by_charge[j] * theta;
                sums[j] += by_charge[i] * theta;
                slope += by_charge[i] * by_charge[j] * theta_slope;
            }
        }
    }
    (sums, slope)
}

/// Pitzer's approximation of J(x), and `x J'(x)`, at x = product of the charges times a unit given by its logarithm.
fn j_function(log_unit: f64, product: usize) -> (f64, f64) {
    /// ln of 0 to 9.
    const LOGS: [f64; 10] = [
        0.0,
        0.0,
        std::f64::consts::LN_2,
        1.098_612_288_668_109_8,
        2.0 * std::f64::consts::LN_2,
        1.609_437_912_434_100_3,
        1.791_759_469_228_055,
        1.945_910_149_055_313_2,
        3.0 * std::f64::consts::LN_2,
        2.197_224_577_336_219_6,
    ];
    let log_x = log_unit + LOGS[product.min(9)];
    let x = libm::exp(log_x);
    let power = 0.0120 * libm::exp(0.528 * log_x);
    let term = 4.581 * libm::exp(-0.7237 * log_x - power);
    let below = 4.0 + term;
    let j = x / below;
    (j, j * (1.0 - term * (-0.7237 - 0.528 * power) / below))
}
