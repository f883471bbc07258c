//! All integration tests in one binary.

mod chem;
mod reference;
