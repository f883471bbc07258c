//! All integration tests in one binary.
mod pantry;
#[cfg(feature = "typst")]
mod press;
mod site;
mod site_pages;
mod units;
