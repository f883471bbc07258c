//! The chemistry of baths: what is in each, how acid it is and how sure that is, and how long it lasts.

mod composition;
mod dose;
mod of_recipe;
mod solution;

pub use composition::{Composition, Held};
pub use solution::{Chemistry, Solution, Solved, solve_bath};

pub(super) use of_recipe::facts;
