//! trayside compiles a photographer's process notebook: Markdown pages with YAML blocks for recipes, cameras and
//! exposures become findings, facts, wall cards and a site.
//!
//! The library exists for the binary and its tests; it makes no promise of stability.

pub mod chem;
pub mod finding;
pub mod notebook;
pub mod pantry;
pub mod source;
pub mod syntax;
pub mod units;
pub mod views;
