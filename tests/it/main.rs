//! All integration tests in one binary.
#[cfg(feature = "typst")]
mod press;
mod site;
mod pantry;
mod units;
