//! Species, families and interaction parameters, indexed for the solver.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use crate::pantry::{Formula, Pantry};

/// Room for species; the loader refuses more.
pub(super) const SPECIES: usize = 80;
/// Room for what a bath holds totals of: families first, then strong ions.
pub(super) const SLOTS: usize = 32;
/// Room for cations and for anions.
pub(super) const CATIONS: usize = 4;
pub(super) const ANIONS: usize = 56;
/// The most species of one family.
pub(super) const STEPS: usize = 5;
/// Places of species that the equations name.
pub(super) const HYDROGEN: usize = 0;
pub(super) const HYDROXIDE: usize = 1;

#[derive(Debug)]
pub(super) struct Species {
    pub(super) name: String,
    pub(super) charge: i8,
    /// The slot of the total to which it counts, if it counts to one.
    pub(super) slot: Option<usize>,
    /// How many units of that total one of it holds.
    pub(super) units: f64,
}

/// One dissociation step of a family.
#[derive(Debug)]
pub(super) struct Step {
    pub(super) pk: f64,
    pub(super) uncertainty: f64,
    pub(super) enthalpy: f64,
    pub(super) heat_capacity: f64,
    pub(super) analytic: Option<String>,
}

/// What makes a family a developing agent.
#[derive(Debug)]
pub(super) struct Agent {
    pub(super) name: String,
    pub(super) electrons: f64,
    pub(super) works_at: i8,
}

/// An acid with its anions.
#[derive(Debug)]
pub(super) struct Family {
    pub(super) id: String,
    pub(super) acid: Formula,
    pub(super) short: Vec<String>,
    pub(super) words: Vec<String>,
    /// Place of its most protonated species; the others follow.
    pub(super) first: usize,
    pub(super) steps: Vec<Step>,
    pub(super) agent: Option<Agent>,
}

/// A species of several boric acids.
#[derive(Debug)]
pub(super) struct Polyborate {
    pub(super) species: usize,
    pub(super) boron: f64,
    pub(super) protons: f64,
    pub(super) pk: f64,
    pub(super) uncertainty: f64,
}

/// An ion that only carries charge here.
#[derive(Debug)]
pub(super) struct Strong {
    pub(super) species: usize,
    pub(super) element: Option<String>,
    pub(super) acid: Option<Formula>,
}

/// Interaction of one cation with one anion.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Pair {
    pub(super) beta0: f64,
    pub(super) beta1: f64,
    /// The third coefficient in the form that the equations use, `Cphi / (2 sqrt |zc za|)`.
    pub(super) c: f64,
    /// Whether no table gives it and the default of the charge stands in.
    pub(super) assumed: bool,
}

/// An apparent molar volume at one or two concentrations.
#[derive(Debug)]
pub(super) struct ApparentVolume {
    pub(super) formula: Formula,
    pub(super) points: Vec<[f64; 2]>,
}

#[derive(Debug)]
pub(super) struct Data {
    pub(super) species: Vec<Species>,
    /// Places of the species by the sign of their charge.
    pub(super) cations: Vec<usize>,
    pub(super) anions: Vec<usize>,
    pub(super) neutrals: Vec<usize>,
    pub(super) families: Vec<Family>,
    pub(super) strong: Vec<Strong>,
    pub(super) polyborates: Vec<Polyborate>,
    pub(super) analytic: BTreeMap<String, [f64; 6]>,
    pub(super) inert: Vec<Formula>,
    /// By cation and anion.
    pub(super) pairs: Vec<Vec<Pair>>,
    pub(super) default_uncertainty: f64,
    pub(super) theta: Vec<(usize, usize, f64)>,
    pub(super) psi: Vec<(usize, usize, usize, f64)>,
    pub(super) lambda: Vec<(usize, usize, f64)>,
    pub(super) epsilon: Vec<Vec<f64>>,
    pub(super) volumes: Vec<ApparentVolume>,
    pub(super) other_volume: f64,
    pub(super) carbonic: usize,
    pub(super) boric: usize,
    pub(super) chloride: usize,
    pub(super) cited: Vec<String>,
}

impl Data {
    /// The data that are part of the program.
    pub(super) fn standard() -> &'static Self {
        static STANDARD: OnceLock<Data> = OnceLock::new();
        STANDARD.get_or_init(|| {
            let texts = [
                include_str!("data/constants.yaml"),
                include_str!("data/pitzer.yaml"),
                include_str!("data/sit.yaml"),
                include_str!("data/volumes.yaml"),
            ];
            match Self::from_yaml(texts, &|key| Pantry::standard().source(key).is_some()) {
                Ok(data) => data,
                #[expect(
                    clippy::panic,
                    reason = "the texts are part of the program; no notebook can reach this"
                )]
                Err(error) => panic!("the built-in constants are broken: {error}"),
            }
        })
    }

    /// The place of the species with this name.
    pub(super) fn find(&self, name: &str) -> Option<usize> {
        self.species.iter().position(|species| species.name == name)
    }

    pub(super) fn slot_of_strong(&self, at: usize) -> usize {
        self.families.len() + at
    }

    /// The slot of a family or strong ion by its id or name.
    pub(super) fn slot(&self, name: &str) -> Option<usize> {
        let family = self.families.iter().position(|family| family.id == name);
        family.or_else(|| {
            let mut strong = self.strong.iter();
            let at =
                strong.position(|strong| self.species.get(strong.species).is_some_and(|s| s.name == name))?;
            Some(self.slot_of_strong(at))
        })
    }
}

/// The bibliography keys that the constants and parameters here cite, repetitions included.
pub fn cited() -> impl Iterator<Item = &'static str> {
    Data::standard().cited.iter().map(String::as_str)
}
