//! What is shown, as plain data: every number already rounded, every line already worded.
//!
//! Renderers ([`crate::press`], [`crate::site`]) see only these. A card, a label and a page made from one recipe cannot
//! disagree, because rounding and wording are decided here, once.

mod amounts;
pub mod card;
mod cards;
mod caution_case;
mod cautions;
pub mod page;
mod process_card;
mod recipe_card;
mod sides;
mod steps;
mod words;

pub use cards::{Cards, LeftOut, cards, layout};
pub use cautions::{caution_bases, cautions};
