//! What is shown, as plain data: every number already rounded, every line already worded.
//!
//! Renderers (`press` and `site`) see only these. A card, a label and a page made from one recipe cannot
//! disagree, because rounding and wording are decided here, once.

pub mod against;
mod amounts;
pub mod bath_plots;
mod block_view;
mod blocks;
pub mod card;
mod cards;
mod caution_case;
mod cautions;
pub mod class;
mod counted;
pub mod cutting;
pub mod drawing;
pub mod exposure_table;
mod fact_view;
mod finding_view;
mod ghs;
pub mod label;
mod labels;
mod log_plot;
pub mod page;
pub mod paths;
pub mod pictures;
pub mod plot;
mod process_card;
mod prose;
pub mod reach;
mod recipe_card;
mod sides;
pub mod site_view;
mod steps;
pub mod swap;
pub mod weighing;
pub mod what_if;
mod words;

pub use cards::{Cards, LeftOut, cards, layout};
pub use cautions::{caution_bases, cautions};
pub use ghs::Pictogram;
pub use labels::{Labels, label_grid, labels};
