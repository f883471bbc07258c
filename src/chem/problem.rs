//! One composition laid out for the solver: only the species that occur, cations first, and the balance of charge.

use std::cell::Cell;
use std::f64::consts::LN_10;

use super::conditions::Conditions;
use super::data::{ANIONS, CATIONS, HYDROGEN, HYDROXIDE, Pair, SLOTS, SPECIES, STEPS};

/// Room for families.
const FAMILIES: usize = 24;
/// Room for interaction terms of each kind.
const TERMS: usize = 24;

/// By which model activity coefficients are computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Model {
    Pitzer,
    Sit,
}

/// A family with its species' places in the compact order.
#[derive(Debug, Clone, Copy, Default)]
struct Members {
    total: f64,
    count: usize,
    places: [usize; STEPS],
    /// Cumulative constants in the compact order of the family.
    cumulative: [f64; STEPS],
    last_charge: f64,
}

/// The borates, which join into larger ions.
#[derive(Debug, Clone, Copy, Default)]
struct Borates {
    total: f64,
    acid: usize,
    ion: usize,
    cumulative: f64,
    /// Place, borons, hydrogen ions given off, constant, hydrogen ions in excess over as many B(OH)4-.
    joined: [(usize, f64, f64, f64, f64); 2],
}

/// A composition ready to be solved at fixed conditions.
pub(super) struct Problem<'a> {
    pub(super) conditions: &'a Conditions,
    pub(super) model: Model,
    /// Global places of the species, in compact order: cations, anions, neutrals.
    pub(super) species: [usize; SPECIES],
    pub(super) charges: [f64; SPECIES],
    pub(super) count: usize,
    pub(super) cations: usize,
    pub(super) anions: usize,
    pub(super) hydrogen: usize,
    pub(super) hydroxide: usize,
    pub(super) chloride: usize,
    pub(super) pairs: [[Pair; ANIONS]; CATIONS],
    pub(super) theta: [(usize, usize, f64); TERMS],
    pub(super) thetas: usize,
    pub(super) psi: [(usize, usize, usize, f64); TERMS],
    pub(super) psis: usize,
    pub(super) lambda: [(usize, usize, f64); TERMS],
    pub(super) lambdas: usize,
    families: [Members; FAMILIES],
    family_count: usize,
    borates: Option<Borates>,
    /// Carbonic species at a fixed activity of carbon dioxide.
    open_carbon: Option<(Members, f64)>,
    /// Strong ions: place and molality.
    strong: [(usize, f64); STEPS * 2],
    strong_count: usize,
    /// The activity of B(OH)3 that was found last, from which the next search starts; zero before the first.
    boric: Cell<f64>,
    /// Charge if every family were in its last form; a hydrogen ion in excess makes up for each that is missing.
    fixed_charge: f64,
}

const ABSENT: usize = usize::MAX;

impl<'a> Problem<'a> {
    /// Lays out totals in mol/kg. `open` is the activity of dissolved carbon dioxide if that is held fixed.
    pub(super) fn new(
        conditions: &'a Conditions,
        totals: &[f64; SLOTS],
        open: Option<f64>,
        model: Model,
    ) -> Self {
        let data = conditions.data;
        let mut place = [ABSENT; SPECIES];
        let mut species = [0; SPECIES];
        let mut charges = [0.0; SPECIES];
        let mut count = 0;
        let present = |at: usize, slot: Option<usize>| match slot {
            _ if at == data.chloride => true,
            None => true,
            Some(slot) => totals[slot] > 0.0 || (slot == data.carbonic && open.is_some()),
        };
        let mut take = |list: &[usize]| {
            for &at in list {
                let one = &data.species[at];
                if present(at, one.slot) {
                    place[at] = count;
                    species[count] = at;
                    charges[count] = f64::from(one.charge);
                    count += 1;
                }
            }
            count
        };
        let cations = take(&data.cations);
        let anions = take(&data.anions) - cations;
        let count = take(&data.neutrals);
        let mut problem = Self {
            conditions,
            model,
            species,
            charges,
            count,
            cations,
            anions,
            hydrogen: place[HYDROGEN],
            hydroxide: place[HYDROXIDE],
            chloride: place[data.chloride],
            pairs: [[Pair::default(); ANIONS]; CATIONS],
            theta: [(0, 0, 0.0); TERMS],
            thetas: 0,
            psi: [(0, 0, 0, 0.0); TERMS],
            psis: 0,
            lambda: [(0, 0, 0.0); TERMS],
            lambdas: 0,
            families: [Members::default(); FAMILIES],
            family_count: 0,
            borates: None,
            open_carbon: None,
            strong: [(0, 0.0); STEPS * 2],
            strong_count: 0,
            boric: Cell::new(0.0),
            fixed_charge: 0.0,
        };
        problem.enter_pairs();
        if model == Model::Pitzer {
            problem.enter_terms(&place);
        }
        problem.enter_families(totals, open, &place);
        problem
    }

    fn enter_pairs(&mut self) {
        let data = self.conditions.data;
        for cation in 0..self.cations {
            let global = self.species[cation];
            for anion in 0..self.anions {
                let other = self.species[self.cations + anion];
                self.pairs[cation][anion] = match self.model {
                    Model::Pitzer => data.pairs[global][other],
                    Model::Sit => Pair {
                        beta0: data.epsilon[global][other],
                        ..Pair::default()
                    },
                };
                if let Some((moved, with, by)) = self.conditions.moved_pair
                    && moved == global
                    && with == other
                {
                    self.pairs[cation][anion].beta0 += by;
                }
            }
        }
    }

    fn enter_terms(&mut self, place: &[usize; SPECIES]) {
        let data = self.conditions.data;
        for &(one, other, theta) in &data.theta {
            let (one, other) = (place[one], place[other]);
            if one != ABSENT && other != ABSENT && self.thetas < TERMS {
                self.theta[self.thetas] = (one, other, theta);
                self.thetas += 1;
            }
        }
        for &(cation, one, other, psi) in &data.psi {
            let (cation, one, other) = (place[cation], place[one], place[other]);
            if cation != ABSENT && one != ABSENT && other != ABSENT && self.psis < TERMS {
                self.psi[self.psis] = (cation, one, other, psi);
                self.psis += 1;
            }
        }
        for &(neutral, ion, lambda) in &data.lambda {
            let (neutral, ion) = (place[neutral], place[ion]);
            if neutral != ABSENT && ion != ABSENT && self.lambdas < TERMS {
                self.lambda[self.lambdas] = (neutral, ion, lambda);
                self.lambdas += 1;
            }
        }
    }

    fn enter_families(&mut self, totals: &[f64; SLOTS], open: Option<f64>, place: &[usize; SPECIES]) {
        let conditions = self.conditions;
        let data = conditions.data;
        for (slot, family) in data.families.iter().enumerate() {
            let total = totals[slot];
            let carbon = slot == data.carbonic && open.is_some();
            if !(total > 0.0 || carbon) {
                continue;
            }
            if slot == data.boric {
                let mut joined = [(0, 0.0, 0.0, 0.0, 0.0); 2];
                for (entry, one) in joined.iter_mut().zip(&data.polyborates) {
                    let constant = conditions.cumulative[one.species];
                    // Against as many B(OH)4- each boron has one hydrogen ion in excess, less those given off.
                    *entry = (
                        place[one.species],
                        one.boron,
                        one.protons,
                        constant,
                        one.boron - one.protons,
                    );
                }
                self.borates = Some(Borates {
                    total,
                    acid: place[family.first],
                    ion: place[family.first + 1],
                    cumulative: conditions.cumulative[family.first + 1],
                    joined,
                });
                self.fixed_charge -= total;
                continue;
            }
            let mut members = Members {
                total,
                count: family.steps.len() + 1,
                ..Members::default()
            };
            for step in 0..members.count {
                let at = family.first + step;
                members.places[step] = place[at];
                members.cumulative[step] = conditions.cumulative[at];
                members.last_charge = f64::from(data.species[at].charge);
            }
            match open {
                Some(activity) if carbon => self.open_carbon = Some((members, activity)),
                _ => {
                    self.fixed_charge += total * members.last_charge;
                    if self.family_count < FAMILIES {
                        self.families[self.family_count] = members;
                        self.family_count += 1;
                    }
                }
            }
        }
        for (at, ion) in data.strong.iter().enumerate() {
            let total = totals[data.slot_of_strong(at)];
            if total > 0.0 && self.strong_count < self.strong.len() {
                self.strong[self.strong_count] = (place[ion.species], total);
                self.strong_count += 1;
                self.fixed_charge += total * f64::from(data.species[ion.species].charge);
            }
        }
    }

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

/// `b^boron / h^protons` for the two joined borates.
fn joined_power(b: f64, boron: f64, inverse: f64, protons: f64) -> f64 {
    let cubed = b * b * b;
    let boron = if boron > 3.5 { cubed * b } else { cubed };
    let protons = if protons > 1.5 { inverse * inverse } else { inverse };
    boron * protons
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
