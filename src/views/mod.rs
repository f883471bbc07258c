//! What is shown, as plain data: every number already rounded, every line already worded.
//!
//! Renderers ([`crate::press`], [`crate::site`]) see only these. A card, a label and a page made from one recipe cannot
//! disagree, because rounding and wording are decided here, once.

pub mod card;
pub mod page;
