//! The balance of charge at fixed activity coefficients, and its root.

use std::f64::consts::LN_10;

use super::data::{SPECIES, STEPS};
use super::problem::{Borates, FAMILIES, Members, Problem};

impl Problem<'_> {
    /// Constants between molalities for these activity coefficients.
    pub(super) fn balance(&self, log_gamma: &[f64; SPECIES]) -> Balance<'_> {
        let mut gamma = [1.0; SPECIES];
        for (gamma, log) in gamma.iter_mut().zip(log_gamma).take(self.count) {
            *gamma = libm::exp(*log);
        }
        let conditional = |members: &Members| {
            let mut members = *members;
            let first = gamma[members.places[0]];
            for step in 1..members.count {
                members.cumulative[step] *= first / gamma[members.places[step]];
            }
            members
        };
        let mut families = self.families;
        for family in families.iter_mut().take(self.family_count) {
            *family = conditional(family);
        }
        Balance {
            problem: self,
            hydrogen: 1.0 / gamma[self.hydrogen],
            hydroxide: self.conditions.ion_product / gamma[self.hydroxide],
            families,
            borates: self.borates.map(|mut borates| {
                borates.cumulative /= gamma[borates.ion];
                for joined in &mut borates.joined {
                    joined.3 /= gamma[joined.0];
                }
                (borates, 1.0 / gamma[borates.acid])
            }),
            open_carbon: self.open_carbon.map(|(members, activity)| {
                let conditional = conditional(&members);
                (conditional, activity / gamma[members.places[0]])
            }),
        }
    }
}

/// The balance of charge at fixed activity coefficients.
pub(super) struct Balance<'a> {
    problem: &'a Problem<'a>,
    hydrogen: f64,
    hydroxide: f64,
    families: [Members; FAMILIES],
    borates: Option<(Borates, f64)>,
    open_carbon: Option<(Members, f64)>,
}

/// Two sides of a sum with their derivatives by the logarithm of the activity of hydrogen.
#[derive(Default)]
struct Sides {
    excess: f64,
    excess_slope: f64,
    lack: f64,
    lack_slope: f64,
}

impl Balance<'_> {
    /// The activity of B(OH)3 that makes up the total, at hydrogen ion activity `h`; and its derivative by `ln h`.
    ///
    /// The sum is convex in the activity, so Newton comes down from above without overshooting, and from below lands above.
    fn boric_activity(&self, borates: &Borates, per_acid: f64, inverse: f64) -> (f64, f64) {
        let ion = borates.cumulative * inverse;
        let linear = per_acid + ion;
        let terms = borates.joined.map(|(_, boron, protons, constant, _)| {
            let joined = if protons > 1.5 {
                constant * inverse * inverse
            } else {
                constant * inverse
            };
            (boron, protons, joined)
        });
        // None of these bounds can be passed.
        let mut highest = borates.total / linear;
        for &(boron, _, joined) in &terms {
            let bound = borates.total / (boron * joined);
            highest = highest.min(if boron > 3.5 {
                bound.sqrt().sqrt()
            } else {
                libm::cbrt(bound)
            });
        }
        let last = self.problem.boric.get();
        let mut b = if last > 0.0 { last.min(highest) } else { highest };
        let (mut slope, mut by_h) = (linear, 0.0);
        for _ in 0..60 {
            let mut sum = linear * b;
            slope = linear;
            by_h = -ion * b;
            for &(boron, protons, joined) in &terms {
                let squared = b * b;
                let below = if boron > 3.5 { squared * b } else { squared };
                let each = boron * joined * below;
                sum += each * b;
                slope += boron * each;
                by_h -= protons * each * b;
            }
            let step = (sum - borates.total) / slope;
            b = (b - step).min(highest);
            if step.abs() <= 1e-8 * b {
                break;
            }
        }
        self.problem.boric.set(b);
        (b, -by_h / slope)
    }

    fn sides(&self, h: f64) -> Sides {
        let problem = self.problem;
        let mut sides = Sides {
            excess: self.hydrogen * h + problem.fixed_charge.max(0.0),
            excess_slope: self.hydrogen * h,
            lack: self.hydroxide / h - problem.fixed_charge.min(0.0),
            lack_slope: -self.hydroxide / h,
        };
        let inverse = 1.0 / h;
        for family in &self.families[..problem.family_count] {
            let last = family.count - 1;
            let mut power = 1.0;
            let (mut sum, mut bound, mut weighted, mut bound_weighted) = (0.0, 0.0, 0.0, 0.0);
            for step in 0..family.count {
                let term = family.cumulative[step] * power;
                let (step, held) = (step as f64, (last - step) as f64);
                sum += term;
                bound += held * term;
                weighted += step * term;
                bound_weighted += step * held * term;
                power *= inverse;
            }
            let share = bound / sum;
            sides.excess += family.total * share;
            sides.excess_slope += family.total * (share * weighted - bound_weighted) / sum;
        }
        if let Some((borates, per_acid)) = &self.borates {
            let (b, b_slope) = self.boric_activity(borates, *per_acid, 1.0 / h);
            sides.excess += per_acid * b;
            sides.excess_slope += per_acid * b_slope;
            for &(_, boron, protons, constant, excess) in &borates.joined {
                let joined = constant * joined_power(b, boron, inverse, protons);
                sides.excess += excess * joined;
                sides.excess_slope += excess * joined * (boron * b_slope / b - protons);
            }
        }
        if let Some((members, acid)) = &self.open_carbon {
            let one = acid * members.cumulative[1] * inverse;
            let two = acid * members.cumulative[2] * inverse * inverse;
            sides.lack += one + 2.0 * two;
            sides.lack_slope -= one + 4.0 * two;
        }
        sides
    }

    /// Natural logarithm of the hydrogen ion activity at which charges balance, near `start` if it is near; `None` if
    /// that lies outside pH -2 to 16.
    ///
    /// Newton on the logarithm of the ratio of the two sides, kept inside a bracket: the ratio only rises with acidity.
    pub(super) fn root(&self, start: f64) -> Option<f64> {
        let (lowest, highest) = (-16.0 * LN_10, 2.0 * LN_10);
        let (mut low, mut high) = (lowest, highest);
        let mut u = start.clamp(low + 1.0, high - 1.0);
        for _ in 0..200 {
            let sides = self.sides(libm::exp(u));
            let value = libm::log(sides.excess / sides.lack);
            if value.is_nan() {
                return None;
            }
            if value > 0.0 {
                high = u;
            } else {
                low = u;
            }
            let slope = sides.excess_slope / sides.excess - sides.lack_slope / sides.lack;
            let newton = u - value / slope;
            // The negation also catches a step that is not a number.
            let halved = !(newton > low && newton < high);
            let next = if halved { f64::midpoint(low, high) } else { newton };
            let step = (next - u).abs();
            u = next;
            // Newton doubles the digits: the error left is of the order of the square of its step.
            if step < if halved { 1e-13 } else { 1e-8 } {
                break;
            }
        }
        (u > lowest + 1e-6 && u < highest - 1e-6).then_some(u)
    }

    /// Molalities of all species at this activity of hydrogen.
    pub(super) fn molalities(&self, log_h: f64) -> [f64; SPECIES] {
        let problem = self.problem;
        let h = libm::exp(log_h);
        let mut molal = [0.0; SPECIES];
        molal[problem.hydrogen] = self.hydrogen * h;
        molal[problem.hydroxide] = self.hydroxide / h;
        for &(place, total) in &problem.strong[..problem.strong_count] {
            molal[place] = total;
        }
        for family in &self.families[..problem.family_count] {
            let mut terms = [0.0; STEPS];
            let (mut power, mut sum) = (1.0, 0.0);
            for (term, cumulative) in terms.iter_mut().zip(&family.cumulative).take(family.count) {
                *term = cumulative * power;
                sum += *term;
                power /= h;
            }
            for (term, &place) in terms.iter().zip(&family.places).take(family.count) {
                molal[place] = family.total * term / sum;
            }
        }
        if let Some((borates, per_acid)) = &self.borates {
            let (b, _) = self.boric_activity(borates, *per_acid, 1.0 / h);
            molal[borates.acid] = per_acid * b;
            molal[borates.ion] = borates.cumulative / h * b;
            for &(place, boron, protons, constant, _) in &borates.joined {
                molal[place] = constant * joined_power(b, boron, 1.0 / h, protons);
            }
        }
        if let Some((members, acid)) = &self.open_carbon {
            let mut power = *acid;
            for (cumulative, &place) in members.cumulative.iter().zip(&members.places).take(members.count) {
                molal[place] = cumulative * power;
                power /= h;
            }
        }
        molal
    }
}

/// `b^boron / h^protons` for the two joined borates.
fn joined_power(b: f64, boron: f64, inverse: f64, protons: f64) -> f64 {
    let cubed = b * b * b;
    let boron = if boron > 3.5 { cubed * b } else { cubed };
    let protons = if protons > 1.5 { inverse * inverse } else { inverse };
    boron * protons
}
