//! From grams per litre to moles per kilogram of water, and whether it all dissolves.

use super::conditions::water_density;
use super::data::{ApparentVolume, Data};
use crate::pantry::{Formula, Material};
use crate::units::Range;
use crate::units::scalar::{AmountOfSubstance, Mass, Temperature, Volume};

use super::component::WATER;

/// The water in a volume of solution.
#[derive(Debug, Clone, PartialEq)]
pub struct Dissolved {
    /// The water, that of crystallisation included.
    pub water: Mass,
    /// Of it, what must be poured in: less what the crystals bring.
    pub to_add: Mass,
    /// Substances whose volume in solution is not known and was taken as 0.6 cm³ a gram.
    pub assumed: Vec<Formula>,
}

/// The water in `volume` of solution that holds these amounts: V = V(water) + sum of n phi.
///
/// Apparent molar volumes are those at 20 °C. `None` if the solutes leave no room for water.
pub fn water_for_volume(
    volume: Volume,
    temperature: Temperature,
    solutes: &[(Formula, AmountOfSubstance)],
) -> Option<Dissolved> {
    let data = Data::standard();
    let density = water_density(temperature);
    let mut assumed = Vec::new();
    let mut crystal_water = 0.0;
    // Concentrations are needed for the volumes and the other way round; twice is enough.
    let mut water = volume.millilitres() * density;
    for _ in 0..3 {
        assumed.clear();
        crystal_water = 0.0;
        let mut taken = 0.0;
        for (formula, amount) in solutes {
            let moles = amount.moles();
            crystal_water += moles * f64::from(formula.water()) * WATER;
            let molality = moles / (water / 1000.0);
            let known = data
                .volumes
                .iter()
                .find(|known| known.formula.elements() == formula.elements());
            taken += if let Some(known) = known {
                moles * at_molality(known, molality)
            } else {
                assumed.push(formula.clone());
                moles * formula.anhydrous_molar_mass() * data.other_volume
            };
        }
        water = (volume.millilitres() - taken) * density;
        if water.is_nan() || water <= 0.0 {
            return None;
        }
    }
    Some(Dissolved {
        water: Mass::from_grams(water),
        to_add: Mass::from_grams(water - crystal_water),
        assumed,
    })
}

fn at_molality(known: &ApparentVolume, molality: f64) -> f64 {
    match known.points.as_slice() {
        [] => 0.0,
        [[_, volume]] => *volume,
        [first, .., last] => {
            let [from, low] = *first;
            let [to, high] = *last;
            let part = ((molality - from) / (to - from)).clamp(0.0, 1.0);
            low + part * (high - low)
        }
    }
}

/// How much of a material dissolves at a temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Solubility {
    /// Grams in a kilogram of water.
    pub grams_per_kilogram: Range,
    /// Whether the temperature lies outside the table, so that its nearest point stands in.
    pub beyond_table: bool,
}

/// How much of a material dissolves at a temperature, between the points of its table; `None` if it has none.
pub fn solubility_at(material: &Material, temperature: Temperature) -> Option<Solubility> {
    let celsius = temperature.celsius();
    let points: Vec<(f64, Range)> = material
        .solubility
        .iter()
        .map(|point| (point.celsius, point.grams_per_kilogram.range()))
        .collect();
    let (first, last) = (points.first()?, points.last()?);
    if celsius <= first.0 || celsius >= last.0 {
        let nearest = if celsius <= first.0 { first } else { last };
        return Some(Solubility {
            grams_per_kilogram: nearest.1,
            beyond_table: celsius != nearest.0,
        });
    }
    points.windows(2).find_map(|pair| {
        let [(from, low), (to, high)] = pair else {
            return None;
        };
        if celsius < *from || celsius > *to {
            return None;
        }
        let part = (celsius - from) / (to - from);
        let between = |low: f64, high: f64| low + part * (high - low);
        Some(Solubility {
            grams_per_kilogram: Range::new(
                between(low.low, high.low),
                between(low.best, high.best),
                between(low.high, high.high),
            ),
            beyond_table: false,
        })
    })
}
