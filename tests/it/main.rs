//! All integration tests in one binary.
#[cfg(feature = "typst")]
mod cards;
mod pantry;
#[cfg(feature = "typst")]
mod press;
mod site;
mod units;
