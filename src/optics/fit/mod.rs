//! Speed and reciprocity of one's own paper, from the log of exposures.
//!
//! The model is `log2 t = p (x - log2 EI)`, valid above one second, where `x` is the logarithm of the metered time at
//! index 1. Index and exponent are strongly tied when all exposures are alike, so the result to show is the predicted time
//! with its interval ([`Fit::predict`]), not the two numbers alone.

mod entry;
mod linear;
mod log_fit;
mod posterior;
mod predict;
mod screen;
mod straight;

pub use entry::{Entry, metered_stops};
pub use log_fit::{Fit, Method, fit};
pub use posterior::{Posterior, Prior};
pub use predict::{EIGHTY_PERCENT, Prediction};
pub use screen::{STRANGE, leave_one_out};
pub use straight::{Estimates, Line, Ordinary, huber, ordinary, soft_l1};
