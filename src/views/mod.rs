//! What is shown, as plain data: every number already rounded, every line already worded.
//!
//! Renderers (`press` and `site`) see only these. A card, a label and a page made from one recipe cannot
//! disagree, because rounding and wording are decided here, once.

pub mod against;
mod agitation;
mod amounts;
pub mod baked;
pub mod bath_plots;
mod block_view;
mod blocks;
mod camera_card;
pub mod card;
mod cards;
mod caution_case;
mod cautions;
pub mod class;
mod clock_offers;
pub mod clock_page;
mod clocks;
mod common;
pub mod contact;
mod counted;
pub mod cutting;
pub mod drawing;
mod event_hash;
pub mod exposure_table;
mod fact_view;
pub mod file_name;
mod finding_view;
mod ghs;
mod going_in;
pub mod label;
mod labels;
mod log_plot;
pub mod markup;
mod not_counted;
pub mod page;
pub mod paths;
pub mod pictures;
pub mod plot;
mod process_card;
mod prose;
pub mod reach;
mod recipe_card;
mod role_cards;
mod room;
pub mod room_sheet;
mod safelight_card;
mod scaling;
pub mod shape;
mod sides;
pub mod site_view;
pub mod slip;
mod steps;
pub mod swap;
pub mod weighing;
pub mod what_if;
mod words;

pub use agitation::Agitation;
pub use cards::{Cards, LeftOut, cards, layout};
pub use cautions::{caution_bases, cautions};
pub use ghs::Pictogram;
pub use labels::{Labels, label_grid, labels};
pub use room::words_at_work;
pub use sides::{MOST as MOST_SIDES, WORDS as WORDS_A_SIDE, refine};
