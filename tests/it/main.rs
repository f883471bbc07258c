//! All integration tests in one binary.
mod pantry;
#[cfg(feature = "typst")]
mod press;
mod reading;
mod rules;
mod site;
mod support;
mod units;
