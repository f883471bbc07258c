//! What a solved bath can be asked.

use std::f64::consts::LN_10;
use std::sync::Arc;

use super::bath::{Bath, GasMode};
use super::conditions::{Conditions, GAS_CONSTANT};
use super::data::{SLOTS, SPECIES};
use super::problem::Model;
use super::solve::{CannotSolve, Placed, settle_gas};
use super::warning::{self, Warning};
use crate::units::scalar::{AmountOfSubstance, Molality, Pressure, Volume};

/// Standard atmosphere in pascal (NIST SP 811, 2008, appendix B.8).
const ATMOSPHERE: f64 = 101_325.0;

/// A bath at equilibrium.
#[derive(Debug, Clone)]
pub struct Equilibrium {
    conditions: Arc<Conditions>,
    bath: Bath,
    gas: GasMode,
    ph: f64,
    ionic_strength: f64,
    open: bool,
    released: f64,
    rounds: u32,
    molal: [f64; SPECIES],
    log_gamma: [f64; SPECIES],
}

impl Equilibrium {
    pub(super) fn new(
        conditions: &Arc<Conditions>,
        bath: &Bath,
        gas: GasMode,
        totals: &[f64; SLOTS],
        open: Option<f64>,
        placed: &Placed<'_>,
    ) -> Self {
        let mut molal = [0.0; SPECIES];
        let mut log_gamma = [0.0; SPECIES];
        for (compact, at) in placed.places().enumerate() {
            molal[at] = placed.settled.molal[compact];
            log_gamma[at] = placed.settled.log_gamma[compact];
        }
        let released = open.map_or(0.0, |_| totals[conditions.data.carbonic] - placed.carbon());
        Self {
            conditions: Arc::clone(conditions),
            bath: *bath,
            gas,
            ph: placed.settled.ph(),
            ionic_strength: placed.settled.ionic_strength,
            open: open.is_some(),
            released,
            rounds: placed.settled.rounds,
            molal,
            log_gamma,
        }
    }

    pub(super) fn conditions(&self) -> &Arc<Conditions> {
        &self.conditions
    }

    pub(super) fn log_gamma(&self, species: usize) -> f64 {
        self.log_gamma[species]
    }

    pub(super) fn is_open(&self) -> bool {
        self.open
    }

    /// The bath that was solved.
    pub fn bath(&self) -> &Bath {
        &self.bath
    }

    /// How much gas it was able to lose.
    pub fn gas(&self) -> GasMode {
        self.gas
    }

    /// pH on the conventional activity scale of the standard buffers.
    pub fn ph(&self) -> f64 {
        self.ph
    }

    /// Ionic strength.
    pub fn ionic_strength(&self) -> Molality {
        Molality::from_moles_per_kilogram(self.ionic_strength)
    }

    /// Rounds of the search.
    pub fn iterations(&self) -> u32 {
        self.rounds
    }

    /// Molality of a species such as `Asc-2`; `None` if there is no such species.
    pub fn molality(&self, species: &str) -> Option<Molality> {
        let at = self.conditions.data.find(species)?;
        Some(Molality::from_moles_per_kilogram(self.molal[at]))
    }

    /// Activity coefficient of a species that occurs in the bath, on the scale of the pH.
    pub fn activity_coefficient(&self, species: &str) -> Option<f64> {
        let at = self.conditions.data.find(species)?;
        (self.molal[at] > 0.0).then(|| libm::exp(self.log_gamma[at]))
    }

    /// The part of its family that is in the form of this species, from 0 to 1; `None` if the bath holds none of it.
    pub fn share(&self, species: &str) -> Option<f64> {
        let data = self.conditions.data;
        let at = data.find(species)?;
        let slot = data.species[at].slot?;
        let total: f64 = self.of_slot(slot).map(|(_, units)| units).sum();
        let own = self.molal[at] * data.species[at].units;
        (total > 0.0).then(|| own / total)
    }

    /// Every species of a family (`ascorbic`) with its share, most protonated first; empty if the bath holds none.
    pub fn shares(&self, family: &str) -> Vec<(&'static str, f64)> {
        let data = self.conditions.data;
        let Some(slot) = data.slot(family) else {
            return Vec::new();
        };
        let total: f64 = self.of_slot(slot).map(|(_, units)| units).sum();
        if total <= 0.0 {
            return Vec::new();
        }
        self.of_slot(slot)
            .map(|(at, units)| (data.species[at].name.as_str(), units / total))
            .collect()
    }

    /// Species of one total with the units of it that they hold, in mol/kg.
    fn of_slot(&self, slot: usize) -> impl Iterator<Item = (usize, f64)> {
        let species = self.conditions.data.species.iter().enumerate();
        species
            .filter(move |(_, species)| species.slot == Some(slot))
            .map(|(at, species)| (at, self.molal[at] * species.units))
    }

    /// Every species that occurs, with its molality.
    pub fn species(&self) -> impl Iterator<Item = (&'static str, Molality)> {
        let species = self.conditions.data.species.iter().zip(&self.molal);
        species
            .filter(|(_, molal)| **molal > 0.0)
            .map(|(species, molal)| (species.name.as_str(), Molality::from_moles_per_kilogram(*molal)))
    }

    /// Carbon dioxide that left, per kilogram of water; negative if it was taken up from the air.
    pub fn co2_released(&self) -> Molality {
        Molality::from_moles_per_kilogram(self.released)
    }

    /// Carbon dioxide that left the whole bath.
    pub fn co2_released_by_bath(&self) -> AmountOfSubstance {
        AmountOfSubstance::from_moles(self.released * self.bath.water().kilograms())
    }

    /// The volume of that gas at the bath's temperature and one atmosphere, as an ideal gas.
    pub fn gas_volume(&self) -> Volume {
        gas_volume(self.co2_released_by_bath(), self.conditions.celsius)
    }

    /// The pressure of carbon dioxide over the bath.
    pub fn pco2(&self) -> Pressure {
        let data = self.conditions.data;
        let acid = data.families[data.carbonic].first;
        let activity = self.molal[acid] * libm::exp(self.log_gamma[acid]);
        Pressure::from_atmospheres(activity / self.conditions.henry)
    }

    /// The sum of all charges in mol/kg; zero but for rounding.
    pub fn charge_residual(&self) -> f64 {
        let species = self.conditions.data.species.iter().zip(&self.molal);
        species
            .map(|(species, molal)| f64::from(species.charge) * molal)
            .sum()
    }

    /// The pH by specific ion interaction theory: a second opinion, and no better than the first.
    pub fn sit_ph(&self) -> Result<f64, CannotSolve> {
        let totals = self.bath.molal();
        let (_, placed) = settle_gas(&self.conditions, &totals, self.gas, Model::Sit, None)?;
        Ok(-placed.settled.log_h / LN_10)
    }

    /// What makes the answer doubtful.
    pub fn warnings(&self) -> Vec<Warning> {
        warning::warnings(self)
    }

    /// Pairs of ions that both occur and whose interaction no table gives: the default of their charges stood in.
    pub fn assumed_pairs(&self) -> Vec<(&'static str, &'static str)> {
        self.assumed()
            .map(|(cation, anion)| {
                let species = &self.conditions.data.species;
                (species[cation].name.as_str(), species[anion].name.as_str())
            })
            .collect()
    }

    /// The same by place, those only that are strong enough to matter.
    pub(super) fn assumed(&self) -> impl Iterator<Item = (usize, usize)> {
        /// Product of molalities below which 0.1 in beta0 moves no pH by 0.001.
        const MATTERS: f64 = 1e-6;
        let pairs = self.conditions.data.pairs.iter().enumerate();
        pairs.flat_map(move |(cation, row)| {
            row.iter()
                .enumerate()
                .filter(move |(anion, pair)| {
                    pair.assumed && self.molal[cation] * self.molal[*anion] > MATTERS
                })
                .map(move |(anion, _)| (cation, anion))
        })
    }
}

/// Volume of a gas at a temperature and one atmosphere, as an ideal gas: n R T / p.
pub(super) fn gas_volume(amount: AmountOfSubstance, celsius: f64) -> Volume {
    let kelvin = celsius + 273.15;
    Volume::from_litres(amount.moles() * GAS_CONSTANT * kelvin / ATMOSPHERE * 1000.0)
}
