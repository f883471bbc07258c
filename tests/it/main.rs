//! All integration tests in one binary: each further one would link a program of fifty megabytes again.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    clippy::indexing_slicing,
    reason = "a test that cannot go on should stop, and tests look at the disk themselves"
)]

mod bad_input;
mod batch_swaps;
mod bath_facts;
mod book;
#[cfg(feature = "typst")]
mod cards;
mod chem;
mod chem_properties;
mod clock_pages;
mod demo_scans;
mod diluted;
mod drain_advice;
mod evening;
mod expose;
mod facts;
mod far_tables;
mod hazards;
mod help_words;
mod hole_scan;
mod kept;
mod layers;
mod mix;
mod optics_fit;
mod optics_properties;
mod optics_rows;
mod optics_timetable;
mod outputs;
mod pantry;
#[cfg(feature = "typst")]
mod press;
mod questions;
mod reading;
mod reference;
mod renamed;
mod rules;
mod scaling;
mod site;
mod site_contact;
mod site_pages;
mod site_private;
mod site_search;
mod site_served;
mod solutions;
mod sound;
mod stock;
mod stranger;
mod support;
mod tend;
mod trade;
mod units;
mod walk;
mod what_if;
mod whole;
