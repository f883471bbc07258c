//! Developing agents: how much of each is in the form that works, and how many electrons they hold.

use super::bath::Bath;
use super::data::Data;
use super::equilibrium::Equilibrium;
use crate::pantry::Formula;
use crate::units::scalar::{AmountOfSubstance, Area, MassPerArea};

/// One developing agent in a bath.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgentShare {
    /// What it is called.
    pub name: &'static str,
    /// The id of its family.
    pub family: &'static str,
    /// The part of it that is ionised far enough to work, from 0 to 1.
    pub ionised: f64,
    /// Electrons that one molecule gives to silver.
    pub electrons: f64,
}

/// The ionised share of each agent that the bath holds.
///
/// Ascorbate works as the ion of charge -2; phenols once a phenolic hydrogen is gone.
pub fn agent_shares(equilibrium: &Equilibrium) -> Vec<AgentShare> {
    let data = Data::standard();
    let families = data.families.iter();
    let agents = families.filter_map(|family| Some((family, family.agent.as_ref()?)));
    agents
        .filter_map(|(family, agent)| {
            let shares = equilibrium.shares(&family.id);
            if shares.is_empty() {
                return None;
            }
            let working = shares.iter().filter(|(name, _)| {
                let charge = data
                    .find(name)
                    .and_then(|at| data.species.get(at))
                    .map_or(0, |s| s.charge);
                charge <= agent.works_at
            });
            Some(AgentShare {
                name: &agent.name,
                family: &family.id,
                ionised: working.map(|(_, share)| share).sum(),
                electrons: agent.electrons,
            })
        })
        .collect()
}

/// Electrons that all agents of a bath could give to silver.
pub fn electrons(bath: &Bath) -> AmountOfSubstance {
    let data = Data::standard();
    let families = data.families.iter();
    let moles = families.filter_map(|family| {
        let agent = family.agent.as_ref()?;
        Some(bath.total(&family.id).moles() * agent.electrons)
    });
    AmountOfSubstance::from_moles(moles.sum())
}

/// Electrons that reduce this share of the silver on an area, one for each atom.
pub fn silver_electrons(silver: MassPerArea, area: Area, reduced: f64) -> AmountOfSubstance {
    // The standard atomic weight of silver, IUPAC 2021.
    let weight = Formula::parse("Ag").map_or(107.8682, |silver| silver.molar_mass());
    let grams = silver.grams_per_square_metre() * area.square_metres() * reduced;
    AmountOfSubstance::from_moles(grams / weight)
}
