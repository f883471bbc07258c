//! How far a computed pH may be off, and because of what.

use std::sync::Arc;

use super::bath::{Bath, GasMode};
use super::component::Component;
use super::conditions::Conditions;
use super::data::Data;
use super::equilibrium::Equilibrium;
use super::solve::{CannotSolve, check, solve_under};
use super::warning::{STRONG, TRIED};
use crate::units::Range;
use crate::units::scalar::{AmountOfSubstance, Mass, Temperature};

/// One input: what a reader calls it, its components with the moles of each, and how much of it.
type Ingredient = (String, Vec<(Component, f64)>, Range);

/// A bath whose temperature, water and ingredients are known between limits.
#[derive(Debug, Clone, PartialEq)]
pub struct BathWithRanges {
    temperature: Range,
    water: Range,
    inputs: Vec<Ingredient>,
}

impl BathWithRanges {
    /// Water in kilograms at a temperature in °C.
    pub fn new(celsius: Range, kilograms: Range) -> Self {
        Self {
            temperature: celsius,
            water: kilograms,
            inputs: Vec::new(),
        }
    }

    /// With moles of a component between limits; `input` is what a reader calls it.
    #[must_use]
    pub fn add(self, input: impl Into<String>, component: Component, moles: Range) -> Self {
        self.add_together(input, vec![(component, 1.0)], moles)
    }

    /// With several components whose amounts rise and fall together: so many moles of each for each of `amount`.
    #[must_use]
    pub fn add_together(
        mut self,
        input: impl Into<String>,
        components: Vec<(Component, f64)>,
        amount: Range,
    ) -> Self {
        self.inputs.push((input.into(), components, amount));
        self
    }

    /// The bath with the best value of everything.
    pub fn best(&self) -> Bath {
        self.with(None)
    }

    /// The bath with one input at another value: an ingredient by its place, then water, then temperature.
    fn with(&self, moved: Option<(usize, f64)>) -> Bath {
        let value = |at: usize, range: Range| match moved {
            Some((input, value)) if input == at => value,
            _ => range.best,
        };
        let count = self.inputs.len();
        let celsius = value(count + 1, self.temperature);
        let water = Mass::from_kilograms(value(count, self.water));
        let mut bath = Bath::new(Temperature::from_celsius(celsius), water);
        for (at, (_, components, amount)) in self.inputs.iter().enumerate() {
            for (component, each) in components {
                let moles = AmountOfSubstance::from_moles(value(at, *amount) * each);
                bath = bath.add(component, moles);
            }
        }
        bath
    }
}

/// What may move the pH.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Input {
    /// An ingredient, by what the reader calls it.
    Ingredient(String),
    /// The amount of water.
    Water,
    /// The temperature.
    Temperature,
    /// A dissociation constant: the family and its step, from 1; steps beyond a family's own are its joined ions.
    Constant(String, usize),
    /// The interaction of two ions that no table gives.
    Pair(String, String),
}

/// One cause of uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub struct Driver {
    /// The cause.
    pub input: Input,
    /// Its part of the variance, from 0 to 1.
    pub share: f64,
    /// By how much it alone lowers the pH.
    pub lowers: f64,
    /// By how much it alone raises the pH.
    pub raises: f64,
}

/// A pH with its limits.
#[derive(Debug, Clone)]
pub struct Band {
    /// The lowest likely pH.
    pub low: f64,
    /// The most likely pH.
    pub best: f64,
    /// The highest likely pH.
    pub high: f64,
    /// How far the two models differ; `None` if the second could not answer.
    pub models_differ: Option<f64>,
    /// The least half width for a bath of this strength and kind.
    pub floor: f64,
    /// What makes it wide, largest share first.
    pub drivers: Vec<Driver>,
    /// The equilibrium of the best values.
    pub equilibrium: Equilibrium,
}

/// The pH of a bath with the range that its ingredients, the constants and the model leave.
///
/// Each input is moved to its ends alone, as are each constant by its uncertainty and each interaction that no table gives by
/// ±0.1 in beta0; the deviations are added as squares. The half width is the largest of that, of the disagreement with
/// specific ion interaction theory, and of a least width: 0.05, from an ionic strength of 1 mol/kg 0.1, from 2 and for
/// thiosulfate 0.2, above 3 or outside 10–40 °C 0.3.
pub fn band(bath: &BathWithRanges, gas: GasMode) -> Result<Band, CannotSolve> {
    let best_bath = bath.best();
    check(&best_bath, gas)?;
    let conditions = Arc::new(Conditions::at(best_bath.temperature()));
    let best = solve_under(&conditions, &best_bath, gas, None)?;
    let mut drivers = Vec::new();
    let mut note = |input: Input, ends: [f64; 2]| {
        let raises = ends.into_iter().fold(0.0, f64::max);
        let lowers = -ends.into_iter().fold(0.0, f64::min);
        if raises > 0.0 || lowers > 0.0 {
            drivers.push(Driver {
                input,
                share: 0.0,
                lowers,
                raises,
            });
        }
    };
    let count = bath.inputs.len();
    let ranges = bath
        .inputs
        .iter()
        .map(|(name, _, range)| (Input::Ingredient(name.clone()), *range));
    let ranges = ranges.chain([(Input::Water, bath.water), (Input::Temperature, bath.temperature)]);
    for (at, (input, range)) in ranges.enumerate().take(count + 2) {
        if range.is_exact() {
            continue;
        }
        let moved = |value: f64| -> Result<f64, CannotSolve> {
            let bath = bath.with(Some((at, value)));
            check(&bath, gas)?;
            let own;
            let conditions = if at == count + 1 {
                own = Arc::new(Conditions::at(bath.temperature()));
                &own
            } else {
                &conditions
            };
            Ok(solve_under(conditions, &bath, gas, Some(&best))?.ph() - best.ph())
        };
        note(input, [moved(range.low)?, moved(range.high)?]);
    }
    for (input, conditions) in uncertain(&best_bath, &best) {
        let ends = conditions.map(|conditions| {
            solve_under(&Arc::new(conditions), &best_bath, gas, Some(&best))
                .map(|moved| moved.ph() - best.ph())
        });
        let [low, high] = ends;
        note(input, [low?, high?]);
    }
    let variance: f64 = drivers.iter().map(spread).sum();
    for driver in &mut drivers {
        driver.share = if variance > 0.0 {
            spread(driver) / variance
        } else {
            0.0
        };
    }
    drivers.sort_by(|a, b| b.share.total_cmp(&a.share));
    let lowers: f64 = drivers.iter().map(|driver| driver.lowers * driver.lowers).sum();
    let raises: f64 = drivers.iter().map(|driver| driver.raises * driver.raises).sum();
    let models_differ = best.sit_ph().ok().map(|other| (other - best.ph()).abs());
    let floor = least_width(&best_bath, &best);
    let least = floor.max(models_differ.unwrap_or(0.0));
    Ok(Band {
        low: best.ph() - least.max(lowers.sqrt()),
        best: best.ph(),
        high: best.ph() + least.max(raises.sqrt()),
        models_differ,
        floor,
        drivers,
        equilibrium: best,
    })
}

fn spread(driver: &Driver) -> f64 {
    let half = 0.5 * (driver.lowers + driver.raises);
    half * half
}

/// The conditions with each uncertain constant and each assumed interaction at its two ends.
fn uncertain(bath: &Bath, best: &Equilibrium) -> Vec<(Input, [Conditions; 2])> {
    let data = Data::standard();
    let at = bath.temperature();
    let mut found = Vec::new();
    let mut constant = |family: usize, step: usize, by: f64| {
        let name = data
            .families
            .get(family)
            .map_or(String::new(), |family| family.id.clone());
        let ends = [-by, by].map(|by| Conditions::shifted(at, Some((family, step, by))));
        found.push((Input::Constant(name, step + 1), ends));
    };
    for (place, family) in data.families.iter().enumerate() {
        if bath.moles().get(place).is_none_or(|total| *total <= 0.0) {
            continue;
        }
        for (step, of) in family.steps.iter().enumerate() {
            constant(place, step, of.uncertainty);
        }
        if place == data.boric {
            for (step, joined) in data.polyborates.iter().enumerate() {
                constant(place, family.steps.len() + step, joined.uncertainty);
            }
        }
    }
    for (cation, anion) in best.assumed() {
        let name = |at: usize| {
            data.species
                .get(at)
                .map_or(String::new(), |species| species.name.clone())
        };
        let ends = [-1.0, 1.0].map(|sign| Conditions {
            moved_pair: Some((cation, anion, sign * data.default_uncertainty)),
            ..Conditions::at(at)
        });
        found.push((Input::Pair(name(cation), name(anion)), ends));
    }
    found
}

/// The least half width: how well the model is known for such a bath at all.
fn least_width(bath: &Bath, best: &Equilibrium) -> f64 {
    /// Thiosulfate in mol/kg from which a bath counts as a fixer.
    const FIXER: f64 = 0.1;
    let strength = best.ionic_strength().moles_per_kilogram();
    let celsius = bath.temperature().celsius();
    if strength > STRONG || celsius < TRIED.0 || celsius > TRIED.1 {
        0.3
    } else if strength > 2.0 || bath.concentration("thiosulfuric").moles_per_kilogram() > FIXER {
        0.2
    } else if strength > 1.0 {
        0.1
    } else {
        0.05
    }
}
