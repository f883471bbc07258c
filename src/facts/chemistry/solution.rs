//! Every bath, part and batch of a notebook solved, each composition once.

use std::collections::BTreeMap;
use std::sync::Arc;

use rayon::prelude::*;

use crate::chem::{
    Band, BathWithRanges, CannotSolve, Component, Driver, Equilibrium, GasMode, Input, acid_equivalents,
    band, buffer_capacity, solve,
};
use crate::facts::bath::Bath;
use crate::facts::baths::Baths;
use crate::facts::dose::{Known, known};
use crate::facts::swapped::swapped;
use crate::notebook::{Notebook, Role};
use crate::units::Range;
use crate::units::scalar::{AmountOfSubstance, Mass, Molality, Temperature};

use super::capacity::limit;
use super::carry::Lines;
use super::composition::{Composition, NoComposition};

/// Below this buffer capacity, in mol/kg per unit of pH, what comes in decides, and no pH is shown; as
/// [`crate::chem::unbuffered`] has it.
const UNBUFFERED: f64 = 1.5e-4;
/// In how many pours the worst order of mixing is followed.
const POURS: u32 = 8;

/// A composition and its equilibrium.
#[derive(Debug, Clone)]
pub struct Solution {
    /// What is in it.
    pub composition: Composition,
    /// Its pH and how sure that is.
    pub band: Band,
    /// Strong base for each unit of pH in mol/kg, with the least and the most that the amounts allow.
    pub buffer: Range,
    /// Ionic strength in mol/kg, likewise.
    pub ionic: Range,
    /// As it is mixed, where it is then diluted for use and not too strong for the model.
    pub undiluted: Option<Equilibrium>,
    /// Carbon dioxide that leaves when all is mixed at once.
    pub gas: AmountOfSubstance,
    /// Carbon dioxide that is set free when soda is poured into all the rest, at most.
    pub gas_at_worst: AmountOfSubstance,
}

impl Solution {
    fn of(composition: &Composition) -> Result<Self, CannotSolve> {
        let mut own = Self::of_known(composition)?;
        if let Some(first) = composition.baked.first() {
            let name = composition.held.get(*first).map(|held| held.name.clone());
            own.widen(name, &composition.turned(0.0), &composition.turned(1.0))?;
        }
        Ok(own)
    }

    /// Between baking soda of which nothing has turned in the oven, and of which all has.
    fn widen(
        &mut self,
        name: Option<String>,
        raw: &Composition,
        done: &Composition,
    ) -> Result<(), CannotSolve> {
        let (raw, done) = (Self::of_known(raw)?, Self::of_known(done)?);
        let best = self.band.best;
        let driver = Driver {
            input: Input::Ingredient(name.unwrap_or_default()),
            share: 1.0,
            lowers: (best - raw.band.best.min(done.band.best)).max(0.0),
            raises: (raw.band.best.max(done.band.best) - best).max(0.0),
        };
        // It outweighs all the rest by far.
        for other in &mut self.band.drivers {
            other.share = 0.0;
        }
        self.band.drivers.insert(0, driver);
        self.band.low = self.band.low.min(raw.band.low).min(done.band.low);
        self.band.high = self.band.high.max(raw.band.high).max(done.band.high);
        self.gas = raw.gas.min(done.gas);
        self.gas_at_worst = raw.gas_at_worst.max(done.gas_at_worst);
        Ok(())
    }

    fn of_known(composition: &Composition) -> Result<Self, CannotSolve> {
        let ranges: BathWithRanges = composition.with_ranges();
        let band = band(&ranges, composition.gas)?;
        let buffered = |bath: &crate::chem::Bath| {
            let capacity = buffer_capacity(bath, composition.gas)?;
            Ok::<_, CannotSolve>(Range::exact(capacity.moles_per_kilogram()))
        };
        let mut buffer = buffered(&ranges.best())?;
        let mut ionic = Range::exact(band.equilibrium.ionic_strength().moles_per_kilogram());
        if !composition.is_exact() {
            let ends: [fn(Range) -> f64; 2] = [|range| range.low, |range| range.high];
            for end in ends {
                let bath = composition.at(end);
                let solved = solve(&bath, composition.gas)?;
                ionic = ionic.hull(Range::exact(solved.ionic_strength().moles_per_kilogram()));
                buffer = buffer.hull(buffered(&bath)?);
            }
        }
        // What foams off does so in the jug, before there is more water to keep it.
        let mixed = composition.as_mixed();
        let undiluted = if composition.diluted_with > 0.0 {
            let fizzes = mixed.held.iter().any(|held| holds_carbonate(&held.component));
            match solve(&mixed.with_ranges().best(), mixed.gas) {
                // Too strong for the model; what is used of it need not be.
                Err(_) if !fizzes => None,
                solved => Some(solved?),
            }
        } else {
            None
        };
        let gas = undiluted
            .as_ref()
            .unwrap_or(&band.equilibrium)
            .co2_released_by_bath();
        let gas_at_worst = gas.max(worst_gas(&mixed)?);
        Ok(Self {
            composition: composition.clone(),
            band,
            buffer,
            ionic,
            undiluted,
            gas,
            gas_at_worst,
        })
    }

    /// The pH with its limits.
    pub fn ph(&self) -> Range {
        Range::new(self.band.low, self.band.best, self.band.high)
    }

    /// Whether the pH says nothing, because traces decide it.
    pub fn is_unbuffered(&self) -> bool {
        self.buffer.best < UNBUFFERED
    }
}

/// The most carbon dioxide that is set free at any moment while what holds carbonate is poured into what holds none. All
/// of it counts, also what so much water could keep: stirred in a small jug it leaves.
fn worst_gas(composition: &Composition) -> Result<AmountOfSubstance, CannotSolve> {
    let empty = crate::chem::Bath::new(
        Temperature::from_celsius(composition.celsius),
        Mass::from_kilograms(composition.kilograms.best),
    );
    let (mut soda, mut rest) = (empty.with_water(Mass::ZERO), empty);
    let mut acid = 0.0;
    for held in &composition.held {
        let moles = AmountOfSubstance::from_moles(held.moles.best);
        if holds_carbonate(&held.component) {
            soda = soda.add(&held.component, moles);
        } else {
            rest = rest.add(&held.component, moles);
            acid += acid_equivalents(&held.component) * held.moles.best;
        }
    }
    let carbonate = soda.total("carbonic").moles();
    let mut most = AmountOfSubstance::ZERO;
    if carbonate <= 0.0 || acid <= 0.0 {
        return Ok(most);
    }
    // Most is free near the point where all acid has met carbonate, two of it to one or, of baking soda, one to one.
    let pours = (1..=POURS).map(|pour| f64::from(pour) / f64::from(POURS));
    let met = [acid / (2.0 * carbonate), acid / carbonate];
    for share in pours.chain(met.into_iter().filter(|share| *share < 1.0)) {
        let mixed = solve(&rest.mixed_with(&soda, share), GasMode::Held)?;
        let free = mixed.molality("CO2").map_or(0.0, Molality::moles_per_kilogram);
        most = most.max(AmountOfSubstance::from_moles(
            free * mixed.bath().water().kilograms(),
        ));
    }
    Ok(most)
}

fn holds_carbonate(component: &Component) -> bool {
    let one = crate::chem::Bath::new(Temperature::from_celsius(20.0), Mass::from_kilograms(1.0));
    one.add(component, AmountOfSubstance::from_moles(1.0))
        .total("carbonic")
        .moles()
        > 0.0
}

/// A solution, or the reason why there is none.
pub type Solved = Result<Arc<Solution>, String>;

/// All solutions of a notebook.
#[derive(Debug, Default)]
pub struct Chemistry {
    whole: BTreeMap<String, Solved>,
    parts: BTreeMap<(String, String), Solved>,
    /// Litres of developer for each of stop, by stop and developer.
    limits: BTreeMap<(String, String), Result<f64, String>>,
    /// Lines and papers.
    pub lines: Lines,
}

/// What is to be solved: a recipe or batch, and a part of it.
type Key = (String, Option<String>);

impl Chemistry {
    /// Solves every recipe, each of its parts, and every batch that took something else or was mixed by an earlier text.
    pub fn of(notebook: &Notebook, baths: &Baths) -> Self {
        let mut wanted: Vec<(Key, Composed)> = Vec::new();
        for bath in baths.iter() {
            let whole = Composition::of_whole(notebook, bath);
            wanted.push(((bath.id.clone(), None), worded(notebook, bath, None, whole)));
            for part in &bath.recipe.parts {
                let Some(name) = part.name.get() else { continue };
                let one = Composition::of_part(notebook, bath, &name.value);
                let key = (bath.id.clone(), Some(name.value.clone()));
                wanted.push((key, worded(notebook, bath, Some(&name.value), one)));
            }
        }
        for (block, batch) in notebook.batches() {
            if batch.incomplete {
                let why = "what was taken instead cannot be read".to_owned();
                wanted.push(((block.id.clone(), None), Err(why)));
                continue;
            }
            let as_written = batch.swaps.is_empty() && !baths.is_earlier(&block.id);
            if let (Some(recipe), false) = (baths.of_batch(&block.id, batch), as_written) {
                let bath = swapped(notebook, recipe, batch);
                if recipe.complete && !bath.complete {
                    let why =
                        "how much of it was mixed cannot be read, so an amount that was taken tells nothing";
                    wanted.push(((block.id.clone(), None), Err(why.to_owned())));
                    continue;
                }
                let whole = Composition::of_whole(notebook, &bath);
                wanted.push(((block.id.clone(), None), worded(notebook, &bath, None, whole)));
            }
        }
        let mut chemistry = Self::solved(&wanted);
        chemistry.lines = Lines::of(notebook, baths);
        let stops: Vec<(String, String)> = baths
            .iter()
            .filter(|bath| bath.role() == Some(Role::Stop))
            .filter_map(|bath| {
                let place = chemistry.lines.place(&bath.id)?;
                Some((bath.id.clone(), place.developer.clone()?))
            })
            .collect();
        chemistry.limits = stops
            .into_par_iter()
            .filter_map(|(stop, developer)| {
                let (one, other) = (
                    chemistry.solution(&stop).ok()?,
                    chemistry.solution(&developer).ok()?,
                );
                let limit = limit(one, other);
                Some(((stop, developer), limit))
            })
            .collect();
        chemistry
    }

    /// Each composition once, side by side.
    fn solved(wanted: &[(Key, Composed)]) -> Self {
        let mut distinct: BTreeMap<String, &Composition> = BTreeMap::new();
        let named: Vec<(&Key, Result<String, &String>)> = wanted
            .iter()
            .map(|(key, composed)| {
                let name = composed.as_ref().map(|composition| {
                    let name = format!("{composition:?}");
                    distinct.entry(name.clone()).or_insert(composition);
                    name
                });
                (key, name)
            })
            .collect();
        let solutions: BTreeMap<String, Solved> = distinct
            .into_par_iter()
            .map(|(name, composition)| {
                let solution = Solution::of(composition)
                    .map(Arc::new)
                    .map_err(|error| error.to_string());
                (name, solution)
            })
            .collect();
        let mut chemistry = Self::default();
        for ((id, part), name) in named {
            let solved = match name {
                Ok(name) => match solutions.get(&name) {
                    Some(solved) => solved.clone(),
                    None => continue,
                },
                Err(why) => Err(why.clone()),
            };
            match part {
                Some(part) => chemistry.parts.insert((id.clone(), part.clone()), solved),
                None => chemistry.whole.insert(id.clone(), solved),
            };
        }
        chemistry
    }

    /// The solution of a recipe, or of a batch that is not as its recipe says now.
    pub fn get(&self, id: &str) -> Option<&Solved> {
        self.whole.get(id)
    }

    /// The solution of a recipe, or why there is none.
    pub fn solution(&self, id: &str) -> Result<&Solution, &str> {
        match self.whole.get(id) {
            Some(Ok(solution)) => Ok(solution),
            Some(Err(why)) => Err(why),
            None => Err("its recipe is not known"),
        }
    }

    /// The solution of a batch: its own where it is not as its recipe says now, else its recipe's.
    pub fn of_batch(&self, batch: &str, recipe: &str) -> Result<&Solution, &str> {
        if self.whole.contains_key(batch) {
            self.solution(batch)
        } else {
            self.solution(recipe)
        }
    }

    /// Litres of developer for each litre of a stop until it is spent; looked up where the stop is as its recipe says.
    pub(super) fn carry_limit(
        &self,
        stop: &Bath,
        own: &Solution,
        developer: &str,
        other: &Solution,
    ) -> Result<f64, String> {
        let as_written = self
            .solution(&stop.id)
            .is_ok_and(|written| std::ptr::eq(written, own));
        let known = as_written
            .then(|| self.limits.get(&(stop.id.clone(), developer.to_owned())))
            .flatten();
        known.cloned().unwrap_or_else(|| limit(own, other))
    }

    /// The solution of a recipe's part.
    pub fn part(&self, id: &str, part: &str) -> Option<&Solved> {
        self.parts.get(&(id.to_owned(), part.to_owned()))
    }
}

/// What a bath that no notebook holds as it is would consist of.
pub(super) fn compose(notebook: &Notebook, bath: &Bath) -> Result<Composition, String> {
    let whole = Composition::of_whole(notebook, bath);
    worded(notebook, bath, None, whole)
}

/// Solves a bath that no notebook holds as it is: what would be, if something else had been taken.
pub fn solve_bath(notebook: &Notebook, bath: &Bath) -> Solved {
    Solution::of(&compose(notebook, bath)?)
        .map(Arc::new)
        .map_err(|error| error.to_string())
}

type Composed = Result<Composition, String>;

/// A composition, or in words why there is none; of a material without a form what each form would give.
fn worded(
    notebook: &Notebook,
    bath: &Bath,
    part: Option<&str>,
    composed: Result<Composition, NoComposition>,
) -> Composed {
    let (at, forms) = match composed {
        Ok(composition) => return Ok(composition),
        Err(NoComposition::Because(why)) => return Err(why),
        Err(NoComposition::Form(at, forms)) => (at, forms),
    };
    let in_part = |dose: &crate::facts::Dose| part.is_none() || dose.part.as_deref() == part;
    let Some((place, dose)) = bath
        .doses
        .iter()
        .enumerate()
        .filter(|(_, dose)| in_part(dose))
        .nth(at)
    else {
        return Err("the form of a material is not said".to_owned());
    };
    let name = &dose.name.value;
    let Known::NeedsForm { family, .. } = &dose.known else {
        return Err(format!("the form of `{name}` is not said"));
    };
    let tried: Vec<String> = forms
        .iter()
        .filter_map(|form| {
            let mut bath = bath.clone();
            bath.doses.get_mut(place)?.known = known(notebook, form);
            let composition = match part {
                Some(part) => Composition::of_part(notebook, &bath, part),
                None => Composition::of_whole(notebook, &bath),
            };
            let composition = composition.ok()?;
            let ph = solve(&composition.with_ranges().best(), composition.gas)
                .ok()?
                .ph();
            Some(format!("{} {ph:.1}", short(form, family)))
        })
        .collect();
    Err(if tried.is_empty() {
        format!("the form of `{name}` is not said: {}", forms.join(", "))
    } else {
        format!("the form of `{name}` is not said: {}", tried.join(", "))
    })
}

/// `washing soda, anhydrous` among washing sodas as `anhydrous`.
fn short<'f>(form: &'f str, family: &str) -> &'f str {
    form.strip_prefix(family)
        .map_or(form, |rest| rest.trim_start_matches([',', ' ']))
}
