//! The chemistry of baths: what is in each, how acid it is and how sure that is, and how long it lasts.

mod baked;
mod capacity;
mod carry;
mod composition;
mod curve;
mod dose;
mod dosed;
mod missed;
mod modelled;
mod of_log;
mod of_recipe;
mod solution;
mod swap;
mod tap;

pub use baked::{Baked, baked};
pub use capacity::STOP_SPENT;
pub use carry::{Gone, Lines, Load, Place, Sheet, load};
pub use composition::{Composition, Held};
pub use curve::{Along, Curve, ph_curve, stop_curve};
pub use dosed::Dosed;
pub use missed::{Limit, Missed, OutOfReach};
pub use of_recipe::{Widest, widest};
pub use solution::{Chemistry, Solution, Solved, solve_bath};
pub use swap::{Kept, NotSwapped, Swapped, swap};

pub(super) use composition::water_of;
pub(super) use of_log::{batch_facts, session_facts};
pub(super) use of_recipe::facts;
