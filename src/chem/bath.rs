//! A bath as the model sees it: moles of what is conserved, in some water, at a temperature.

use super::component::Component;
use super::data::{Data, SLOTS};
use crate::units::scalar::{AmountOfSubstance, Mass, Molality, Pressure, Temperature};

/// How much carbon dioxide a bath was able to lose.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum GasMode {
    /// Nothing: freshly dissolved, or corked.
    Held,
    /// What foams off: down to one atmosphere of carbon dioxide.
    #[default]
    Fizzed,
    /// Stirred or left standing until its carbon dioxide is down to this pressure.
    Stood(Pressure),
    /// At rest with the air, 4.2e-4 atm; where it drifts to over days. A bath poor in carbonate takes carbon dioxide up.
    Aired,
    /// As [`GasMode::Aired`], with another pressure of carbon dioxide.
    Open(Pressure),
}

impl GasMode {
    /// Pressure of carbon dioxide in the air, in atmospheres.
    pub const AIR: f64 = 4.2e-4;

    /// The pressure in atmospheres to which gas leaves, and whether it may also enter.
    pub(super) fn pressure(self) -> Option<(f64, bool)> {
        match self {
            Self::Held => None,
            Self::Fizzed => Some((1.0, false)),
            Self::Stood(pressure) => Some((pressure.atmospheres(), false)),
            Self::Aired => Some((Self::AIR, true)),
            Self::Open(pressure) => Some((pressure.atmospheres(), true)),
        }
    }
}

/// What is dissolved in how much water, at what temperature.
///
/// Only what is conserved is kept (sodium, carbonate in all its forms, ascorbate in all its forms ...); hydrogen follows from
/// the balance of charge. So baking soda with caustic is the same bath as washing soda.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bath {
    temperature: Temperature,
    water: Mass,
    totals: [f64; SLOTS],
}

impl Bath {
    /// Water and nothing else.
    pub fn new(temperature: Temperature, water: Mass) -> Self {
        Self {
            temperature,
            water,
            totals: [0.0; SLOTS],
        }
    }

    /// With this much of a component added, and the water of crystallisation that it brings.
    ///
    /// Negative amounts take away; [`solve`](super::solve()) refuses a bath of which something is less than nothing.
    #[must_use]
    pub fn add(mut self, component: &Component, amount: AmountOfSubstance) -> Self {
        let moles = amount.moles();
        for &(slot, count) in component.parts() {
            if let Some(total) = self.totals.get_mut(slot) {
                *total += count * moles;
            }
        }
        self.water = self.water + component.crystal_water() * moles;
        self
    }

    /// The same with more or less water.
    #[must_use]
    pub fn with_water(mut self, water: Mass) -> Self {
        self.water = water;
        self
    }

    /// The same at another temperature.
    #[must_use]
    pub fn at(mut self, temperature: Temperature) -> Self {
        self.temperature = temperature;
        self
    }

    /// This bath with `share` of `other` poured in: 0.1 is a tenth of it, with its water. Keeps this temperature.
    #[must_use]
    pub fn mixed_with(mut self, other: &Self, share: f64) -> Self {
        for (total, more) in self.totals.iter_mut().zip(&other.totals) {
            *total += more * share;
        }
        self.water = self.water + other.water * share;
        self
    }

    /// The temperature.
    pub fn temperature(&self) -> Temperature {
        self.temperature
    }

    /// The water, that of crystals included.
    pub fn water(&self) -> Mass {
        self.water
    }

    /// How much of a family (`carbonic`, `ascorbic`) or strong ion (`Na+`) it holds; none of what is unknown.
    pub fn total(&self, name: &str) -> AmountOfSubstance {
        let slot = Data::standard().slot(name);
        let moles = slot.and_then(|slot| self.totals.get(slot)).copied();
        AmountOfSubstance::from_moles(moles.unwrap_or(0.0))
    }

    /// The same per kilogram of water.
    pub fn concentration(&self, name: &str) -> Molality {
        Molality::from_moles_per_kilogram(self.total(name).moles() / self.water.kilograms())
    }

    pub(super) fn moles(&self) -> &[f64; SLOTS] {
        &self.totals
    }

    /// Totals in mol per kg of water.
    pub(super) fn molal(&self) -> [f64; SLOTS] {
        let water = self.water.kilograms();
        self.totals.map(|total| total / water)
    }
}
