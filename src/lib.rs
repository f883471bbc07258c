//! trayside compiles a photographer's process notebook: Markdown pages with YAML blocks for recipes, cameras and
//! exposures become findings, facts, wall cards and a site.
//!
//! The library exists for the binary and its tests; it makes no promise of stability.

pub mod chem;
pub mod cli;
pub mod clock;
pub mod facts;
pub mod finding;
pub mod host;
pub mod notebook;
pub mod optics;
pub mod pantry;
pub mod pipeline;
#[cfg(feature = "typst")]
pub mod press;
pub mod rules;
pub mod scale;
pub mod site;
pub mod source;
pub mod syntax;
pub mod tend;
pub mod tone;
pub mod units;
pub mod views;

/// A notebook is many small pieces, made and let go on all cores at once: an allocator that is made for that takes a third
/// less time over a save in a long log.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;
