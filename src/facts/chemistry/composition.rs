//! A whole bath, or one part of it, as the model takes it: components with their ranges in so much water.

use std::collections::{BTreeMap, BTreeSet};

use crate::chem::{Component, GasMode, water_density, water_for_volume};
use crate::facts::bath::Bath;
use crate::facts::dose::Dose;
use crate::notebook::{Gas, Notebook, Part, Step, Verb, Water, slug};
use crate::pantry::{Formula, Lookup, Pantry};
use crate::units::scalar::{AmountOfSubstance, Pressure, Temperature, Volume};
use crate::units::{Dimension, Range};

use super::dose::{Basin, Refused, taken_apart};
use super::tap::alkalinity;

/// The temperature of a bath that says none, in °C: a room's.
pub(super) const ROOM: f64 = 20.0;
/// How far amounts given per kilogram and the water that they leave room for are brought into agreement.
const ROUNDS: usize = 4;

/// What one material brings.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// The material as written.
    pub name: String,
    /// A component and its moles.
    pub component: Component,
    /// Its moles.
    pub moles: Range,
}

/// What is in a bath and in how much water.
#[derive(Debug, Clone, PartialEq)]
pub struct Composition {
    /// Components, in order of writing.
    pub held: Vec<Held>,
    /// Kilograms of water, without that of crystallisation.
    pub kilograms: Range,
    /// Litres of it, where known.
    pub litres: Option<Range>,
    /// Its temperature in °C.
    pub celsius: f64,
    /// Whether the temperature is one that nobody wrote.
    pub temperature_assumed: bool,
    /// What becomes of its carbon dioxide.
    pub gas: GasMode,
    /// What was left out, because nothing is known of it.
    pub left_out: Vec<String>,
    /// Litres of water that plants keep back when they are strained, with what was dissolved in it.
    pub kept_back: Option<Range>,
    /// Whether the water was weighed, as in a laboratory solution; else it is what the finished volume has room for.
    pub weighed: bool,
    /// Moles of hydrogen carbonate in a kilogram of the water that is put in, where the notebook says what its tap brings.
    pub tap: Option<Range>,
    /// Kilograms of its water that juices and solutions bring, and not the tap.
    pub(super) brought: f64,
    /// Kilograms of its water that only come when it is diluted for use; zero where it is used as it is mixed.
    pub diluted_with: f64,
    /// The places in `held` of baking soda that goes into the oven; after each stands the washing soda that comes of it.
    /// How far it turns is not written: each is there as if half of it had.
    pub baked: Vec<usize>,
    /// The parts that go into the oven; none for the whole bath.
    ovens: Vec<Option<String>>,
}

/// Why a bath has no composition.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum NoComposition {
    /// One material's form was not said: the place of its dose, and the forms.
    Form(usize, Vec<String>),
    /// In words.
    Because(String),
}

impl Composition {
    /// The whole bath as it is used.
    pub(super) fn of_whole(notebook: &Notebook, bath: &Bath) -> Result<Self, NoComposition> {
        let pantry = &notebook.pantry;
        let because = |why: &str| Err(NoComposition::Because(why.to_owned()));
        if !bath.complete {
            return because("part of the recipe cannot be read");
        }
        if bath.doses.is_empty() {
            return because("nothing is in it but water");
        }
        let recipe = &bath.recipe;
        let made_up = recipe.steps.iter().any(|step| step.verb == Verb::MakeUp);
        let weighed = recipe
            .water
            .get()
            .filter(|water| recipe.parts.is_empty() && !made_up && water.amount.dimension == Dimension::Mass);
        let dry = recipe
            .water
            .get()
            .is_some_and(|water| water.amount.range.high <= 0.0);
        if dry {
            return because("there is no water to dissolve anything in");
        }
        let litres = recipe.makes.get().map(|makes| makes.range);
        let doses: Vec<&Dose> = bath.doses.iter().collect();
        let Some(thinning) = bath.thinning() else {
            return because("its dilution cannot be read");
        };
        let mixed = match (weighed, litres) {
            (Some(water), _) => Self::in_water(pantry, bath, &doses, water, litres),
            (None, Some(litres)) => Self::in_volume(pantry, bath, &doses, litres),
            (None, None) => because("the finished volume cannot be read"),
        }?;
        Ok(mixed.diluted(thinning).with_tap_of(notebook))
    }

    /// So many times the volume that was mixed, the rest of it water.
    fn diluted(mut self, thinning: Range) -> Self {
        if thinning.best > 1.0 {
            let litres = self.litres.unwrap_or(self.kilograms);
            let more = litres * (thinning + -1.0);
            let more = more.scale(water_density(Temperature::from_celsius(ROOM)));
            self.diluted_with = more.best;
            self.kilograms = self.kilograms + more;
            self.litres = Some(litres * thinning);
        }
        self
    }

    /// As it is mixed, before it is diluted for use.
    pub(super) fn as_mixed(&self) -> Self {
        Self {
            kilograms: self.kilograms - Range::exact(self.diluted_with),
            diluted_with: 0.0,
            ..self.clone()
        }
    }

    /// One part, before it is poured to the others.
    pub(super) fn of_part(notebook: &Notebook, bath: &Bath, part: &str) -> Result<Self, NoComposition> {
        let pantry = &notebook.pantry;
        let because = |why: &str| Err(NoComposition::Because(why.to_owned()));
        let doses: Vec<&Dose> = bath
            .doses
            .iter()
            .filter(|dose| dose.part.as_deref() == Some(part))
            .collect();
        let Some(written) = part_of(bath, part).filter(|_| bath.complete) else {
            return because("part of the recipe cannot be read");
        };
        if doses.is_empty() {
            return because("nothing is in it but water");
        }
        let part = match (written.makes.get(), written.water.get()) {
            (Some(makes), _) => Self::in_volume(pantry, bath, &doses, makes.range),
            (None, Some(water)) => Self::in_water(pantry, bath, &doses, water, None),
            (None, None) => because("the part does not say how much water it takes"),
        }?;
        Ok(part.with_tap_of(notebook))
    }

    fn with_tap_of(self, notebook: &Notebook) -> Self {
        Self {
            tap: alkalinity(notebook),
            ..self
        }
    }

    fn in_water(
        pantry: &Pantry,
        bath: &Bath,
        doses: &[&Dose],
        water: &Water,
        litres: Option<Range>,
    ) -> Result<Self, NoComposition> {
        let kilograms = match water.amount.dimension {
            Dimension::Mass => water.amount.range.scale(1e-3),
            // Measured cold, whatever it is heated to afterwards.
            _ => water
                .amount
                .range
                .scale(water_density(Temperature::from_celsius(ROOM))),
        };
        let volume = litres.unwrap_or(kilograms);
        let mut composition = Self::empty(bath, kilograms, Some(volume));
        composition.weighed = water.amount.dimension == Dimension::Mass;
        let mut more = 0.0;
        for _ in 0..rounds(doses) {
            let basin = Basin {
                litres: Some(volume.best),
                kilograms: kilograms.best + more * 1e-3 + composition.crystal_kilograms(),
            };
            more = composition.fill(pantry, doses, &[], basin)?;
        }
        composition.brought = more * 1e-3;
        composition.kilograms = composition.kilograms + Range::exact(composition.brought);
        composition.checked()
    }

    fn in_volume(
        pantry: &Pantry,
        bath: &Bath,
        doses: &[&Dose],
        litres: Range,
    ) -> Result<Self, NoComposition> {
        let mut composition = Self::empty(bath, litres, Some(litres));
        let temperature = Temperature::from_celsius(composition.celsius);
        let passes = composition.strained(bath, doses, litres)?;
        for _ in 0..rounds(doses) {
            let basin = Basin {
                litres: Some(litres.best),
                // What the last round found, with the water of crystals.
                kilograms: composition.kilograms.best + composition.crystal_kilograms(),
            };
            composition.brought = composition.fill(pantry, doses, &passes, basin)? * 1e-3;
            let solutes: Vec<(Formula, AmountOfSubstance)> = composition
                .held
                .iter()
                .filter_map(|held| {
                    let formula = formula_of(pantry, &held.component)?;
                    Some((formula, AmountOfSubstance::from_moles(held.moles.best)))
                })
                .collect();
            let room = water_for_volume(Volume::from_litres(litres.best), temperature, &solutes);
            let Some(room) = room else {
                return Err(NoComposition::Because(format!(
                    "so much is dissolved in {} l that no room for water is left",
                    litres.best
                )));
            };
            composition.kilograms = Range::exact(room.to_add.kilograms());
        }
        if let Some(relative) = litres.checked_div(Range::exact(litres.best)) {
            composition.kilograms = relative.scale(composition.kilograms.best);
        }
        composition.checked()
    }

    fn empty(bath: &Bath, kilograms: Range, litres: Option<Range>) -> Self {
        let temperature = bath.recipe.usage.temperature.get();
        Self {
            held: Vec::new(),
            kilograms,
            litres,
            celsius: temperature.map_or(ROOM, |temperature| temperature.range.best),
            temperature_assumed: temperature.is_none(),
            gas: gas_mode(bath),
            left_out: Vec::new(),
            kept_back: None,
            weighed: false,
            tap: None,
            brought: 0.0,
            diluted_with: 0.0,
            baked: Vec::new(),
            ovens: ovens(bath),
        }
    }

    /// Takes every dose apart; returns the grams of water that juices and solutions bring.
    /// Of each dose that share reaches the bath which `passes` says, all of it where it says nothing.
    fn fill(
        &mut self,
        pantry: &Pantry,
        doses: &[&Dose],
        passes: &[Range],
        basin: Basin,
    ) -> Result<f64, NoComposition> {
        self.held.clear();
        self.baked.clear();
        self.left_out.clear();
        let mut water = 0.0;
        for (at, dose) in doses.iter().enumerate() {
            let resolved = taken_apart(pantry, dose, basin).map_err(|refused| match refused {
                Refused::Form(forms) => NoComposition::Form(at, forms),
                Refused::Because(why) => NoComposition::Because(why),
            })?;
            water += resolved.water;
            let passed = passes.get(at).copied().unwrap_or(Range::exact(1.0));
            let washing_soda = self.bakes(dose).then(|| Component::named("Na2CO3"));
            for (component, moles) in resolved.components {
                let moles = moles * passed;
                let mut hold = |component, moles| {
                    let name = dose.name.value.clone();
                    self.held.push(Held {
                        name,
                        component,
                        moles,
                    });
                };
                if let Some(Ok(washing_soda)) = &washing_soda {
                    // Two of baking soda make one of washing soda; of half of them.
                    hold(component, moles.scale(0.5));
                    hold(washing_soda.clone(), moles.scale(0.25));
                    self.baked.push(self.held.len() - 2);
                } else {
                    hold(component, moles);
                }
            }
            for (name, _) in resolved.left_out {
                if !self.left_out.contains(&name) {
                    self.left_out.push(name);
                }
            }
        }
        Ok(water)
    }

    /// Whether a dose is baking soda that goes into the oven.
    fn bakes(&self, dose: &Dose) -> bool {
        let baking_soda = dose.formula().is_some_and(|formula| {
            ["Na", "H", "C"].iter().all(|element| formula.count(element) == 1) && formula.count("O") == 3
        });
        let mut ovens = self.ovens.iter();
        baking_soda && ovens.any(|oven| oven.is_none() || *oven == dose.part)
    }

    /// The share of each dose that comes through the strainer. What plants keep back of their water keeps its share of all
    /// that was dissolved in it: of the plant itself, and of what stood in the same pot until it was strained.
    fn strained(&mut self, bath: &Bath, doses: &[&Dose], litres: Range) -> Result<Vec<Range>, NoComposition> {
        let mut passes = Vec::with_capacity(doses.len());
        let mut kept_back: BTreeMap<Option<&str>, Range> = BTreeMap::new();
        for dose in &bath.doses {
            if let Some(back) = dose.keeps_back(litres) {
                let kept = kept_back.entry(dose.part.as_deref()).or_insert(Range::ZERO);
                *kept = *kept + back.scale(1e-3);
            }
        }
        for dose in doses {
            let part = dose.part.as_deref();
            let strained = dose.keeps_back(litres).is_some() || part.is_some_and(|part| strains(bath, part));
            let share = kept_back
                .get(&part)
                .zip(water_of(bath, part))
                .filter(|(_, water)| strained && water.low > 0.0);
            let Some((kept, water)) = share else {
                passes.push(Range::exact(1.0));
                continue;
            };
            if kept.best >= water.best {
                return Err(NoComposition::Because(format!(
                    "the plants of `{}` keep back all of their water",
                    part.unwrap_or(&bath.id)
                )));
            }
            let passed = |kept: f64, water: f64| (1.0 - kept / water).max(0.0);
            passes.push(Range::new(
                passed(kept.high, water.low),
                passed(kept.best, water.best),
                passed(kept.low, water.high),
            ));
        }
        let parts: BTreeSet<Option<&str>> = doses.iter().map(|dose| dose.part.as_deref()).collect();
        self.kept_back = parts
            .iter()
            .filter(|part| water_of(bath, **part).is_some())
            .filter_map(|part| kept_back.get(part).copied())
            .reduce(|all, one| all + one);
        Ok(passes)
    }

    fn checked(self) -> Result<Self, NoComposition> {
        if self.kilograms.low > 0.0 && self.kilograms.is_finite() {
            Ok(self)
        } else {
            Err(NoComposition::Because(
                "there is no water to dissolve anything in".to_owned(),
            ))
        }
    }
}

/// Litres of water that are put into a part, or into a bath of one part.
pub(in crate::facts) fn water_of(bath: &Bath, part: Option<&str>) -> Option<Range> {
    let water = match part {
        Some(part) => part_of(bath, part)?.water.get()?,
        None => bath.recipe.water.get()?,
    };
    Some(match water.amount.dimension {
        Dimension::Mass => water.amount.range.scale(1e-3),
        _ => water.amount.range,
    })
}

fn part_of<'b>(bath: &'b Bath, part: &str) -> Option<&'b Part> {
    let mut parts = bath.recipe.parts.iter();
    parts.find(|one| one.name.get().is_some_and(|name| slug(&name.value) == slug(part)))
}

fn ovens(bath: &Bath) -> Vec<Option<String>> {
    let bakes = |steps: &[Step]| steps.iter().any(|step| step.verb == Verb::Bake);
    let parts = bath.recipe.parts.iter().filter(|part| bakes(&part.steps));
    let whole = bakes(&bath.recipe.steps).then_some(None);
    let named = parts.filter_map(|part| Some(Some(part.name.get()?.value.clone())));
    whole.into_iter().chain(named).collect()
}

fn strains(bath: &Bath, part: &str) -> bool {
    let steps = part_of(bath, part).map_or(&[][..], |part| &part.steps);
    steps
        .iter()
        .any(|step| matches!(step.verb, Verb::Strain | Verb::Filter))
}

/// How often doses are taken apart: amounts per kilogram depend on the water that crystals bring, and the other way round.
fn rounds(doses: &[&Dose]) -> usize {
    let mut dimensions = doses.iter().map(|dose| dose.amount.dimension);
    if dimensions.any(|dimension| dimension == Dimension::Molality) {
        ROUNDS
    } else {
        1
    }
}

/// The gas mode as written; what foams off, where none is.
fn gas_mode(bath: &Bath) -> GasMode {
    let Some(gas) = bath.recipe.gas.get() else {
        return GasMode::Fizzed;
    };
    match (gas.value.mode, &gas.value.pressure) {
        (Gas::Held, _) => GasMode::Held,
        (Gas::Stood, Some(pressure)) => GasMode::Stood(Pressure::from_atmospheres(pressure.range.best)),
        (Gas::Fizzed | Gas::Stood, _) => GasMode::Fizzed,
        (Gas::Aired, _) => GasMode::Aired,
    }
}

/// The formula by which a component's volume in solution is known.
fn formula_of(pantry: &Pantry, component: &Component) -> Option<Formula> {
    if let Ok(formula) = Formula::parse(component.name()) {
        return Some(formula);
    }
    match pantry.look_up(component.name()) {
        Lookup::Found { material, .. } => material.formula.clone(),
        Lookup::Formula { formula, .. } => Some(formula),
        _ => None,
    }
}
