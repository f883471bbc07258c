//! One composition laid out for the solver: only the species that occur, cations first, and the balance of charge.

use std::cell::Cell;

use super::conditions::Conditions;
use super::data::{ANIONS, CATIONS, HYDROGEN, HYDROXIDE, Pair, SLOTS, SPECIES, STEPS};

/// Room for families.
pub(super) const FAMILIES: usize = 24;
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
pub(super) struct Members {
    pub(super) total: f64,
    pub(super) count: usize,
    pub(super) places: [usize; STEPS],
    /// Cumulative constants in the compact order of the family.
    pub(super) cumulative: [f64; STEPS],
    pub(super) last_charge: f64,
}

/// The borates, which join into larger ions.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Borates {
    pub(super) total: f64,
    pub(super) acid: usize,
    pub(super) ion: usize,
    pub(super) cumulative: f64,
    /// Place, borons, hydrogen ions given off, constant, hydrogen ions in excess over as many B(OH)4-.
    pub(super) joined: [(usize, f64, f64, f64, f64); 2],
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
    pub(super) families: [Members; FAMILIES],
    pub(super) family_count: usize,
    pub(super) borates: Option<Borates>,
    /// Carbonic species at a fixed activity of carbon dioxide.
    pub(super) open_carbon: Option<(Members, f64)>,
    /// Strong ions: place and molality.
    pub(super) strong: [(usize, f64); STEPS * 2],
    pub(super) strong_count: usize,
    /// The activity of B(OH)3 that was found last, from which the next search starts; zero before the first.
    pub(super) boric: Cell<f64>,
    /// Charge if every family were in its last form; a hydrogen ion in excess makes up for each that is missing.
    pub(super) fixed_charge: f64,
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
}
