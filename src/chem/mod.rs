//! The chemistry of a bath: what is in it, how acid it is, what it gives off, and what a little more of something does.
//!
//! A [`Bath`] holds moles of elements that matter per kilogram of water; [`Component`] turns a name, a formula or a pantry
//! material into such moles. [`solve()`] finds the equilibrium with Pitzer's activity coefficients on the pH scale of the
//! standard buffers; [`Equilibrium::sit_ph`] computes the same with another model, whose disagreement is an alarm, and
//! [`band()`] says how far the answer may be off.
//!
//! Constants and parameters stand in YAML files under `data/`, each row with its source; the loader refuses one without.

mod agents;
mod atoms;
mod bake;
mod balance;
mod band;
mod bath;
mod change;
mod component;
mod conditions;
mod data;
mod dissolve;
mod equilibrium;
mod load;
mod mass;
mod names;
mod pitzer;
mod problem;
mod resolve;
mod rows;
mod sit;
mod solve;
mod stop;
mod warning;

pub use agents::{AgentShare, agent_shares, electrons, silver_electrons};
pub use bake::{SodaForm, SodaGuess, bake, baking_loss, identify_soda};
pub use band::{Band, BathWithRanges, Driver, Input, band};
pub use bath::{Bath, GasMode};
pub use change::{NotReached, amount_to_reach, buffer_capacity, equivalent_amount, titration, unbuffered};
pub use component::{Component, NotKnown};
pub use conditions::{debye_hueckel_a, water_density};
pub use data::cited;
pub use dissolve::{Dissolved, Solubility, solubility_at, water_for_volume};
pub use equilibrium::Equilibrium;
pub use load::ChemDataError;
pub use mass::{
    acid_equivalents, carbon_dioxide_solubility, dissociation_pk, equal_mass, family_of, ideal_gas_volume,
    moles_of, water_pk,
};
pub use names::formula_of_name;
pub use resolve::{Measure, Resolved, resolve};
pub use solve::{CannotSolve, solve, solve_near};
pub use stop::{carried_in, carry_over_limit, ph_with_carry_over, sheets_until};
pub use warning::Warning;
