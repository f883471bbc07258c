//! All integration tests in one binary: each further one would link a program of fifty megabytes again.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::indexing_slicing,
    reason = "a test that cannot go on should stop, and tests look at the disk themselves"
)]

#[cfg(feature = "typst")]
mod cards;
mod chem;
mod facts;
mod layers;
mod optics_rows;
mod book;
mod facts;
mod layers;
mod outputs;
mod pantry;
#[cfg(feature = "typst")]
mod press;
mod chem_properties;
mod reference;
mod reading;
mod rules;
mod site;
mod site_pages;
mod support;
mod trade;
mod units;
mod walk;
