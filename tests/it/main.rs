//! All integration tests in one binary.

mod chem;
mod chem_properties;
mod reference;
