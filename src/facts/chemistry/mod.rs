//! The chemistry of baths: what is in each, how acid it is and how sure that is, and how long it lasts.

mod capacity;
mod carry;
mod composition;
mod dose;
mod of_log;
mod of_recipe;
mod solution;

pub use capacity::STOP_SPENT;
pub use carry::{Lines, Load, Place, Sheet, load};
pub use composition::{Composition, Held};
pub use solution::{Chemistry, Solution, Solved, solve_bath};

pub(super) use of_log::{batch_facts, session_facts};
pub(super) use of_recipe::facts;
