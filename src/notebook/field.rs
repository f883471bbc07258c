//! The language's keys as tables: what each block may hold and what it means.
//!
//! Lowering reads these, messages offer the nearest of them, and the reference pages are made from them; so a key cannot
//! be read that is not documented.

use crate::units::Dimension;

use super::Kind;

/// A key of a block, or of a map within one.
#[derive(Debug, Clone, Copy)]
pub struct Field {
    /// The key.
    pub key: &'static str,
    /// Whether it must be there.
    pub required: bool,
    /// What its value may be.
    pub shape: Shape,
    /// What it means, in half a sentence.
    pub meaning: &'static str,
}

/// What a value may be.
#[derive(Debug, Clone, Copy)]
pub enum Shape {
    /// An amount of one of these dimensions.
    Amount(&'static [Dimension]),
    /// Words.
    Text,
    /// One of these words.
    Word(&'static [&'static str]),
    /// The id of a block of one of these kinds.
    Reference(&'static [Kind]),
    /// A date, with or without a time.
    Date,
    /// `yes` or `no`.
    YesNo,
    /// A whole number.
    Whole,
    /// Keys with values.
    Map(&'static [Field]),
    /// A list of one shape; one value may stand for a list of one.
    List(&'static Self),
    /// Free keys with values of one shape, such as materials with amounts.
    Each(&'static Self),
    /// Something with its own reading, described here.
    Own(&'static str),
}

impl Field {
    /// A key that may be left out.
    pub const fn new(key: &'static str, shape: Shape, meaning: &'static str) -> Self {
        Self {
            key,
            required: false,
            shape,
            meaning,
        }
    }

    /// A key that must be there.
    pub const fn required(key: &'static str, shape: Shape, meaning: &'static str) -> Self {
        Self {
            key,
            required: true,
            shape,
            meaning,
        }
    }
}

/// The keys that every block may carry.
pub const COMMON: &[Field] = &[
    Field::new(
        "id",
        Shape::Text,
        "the block's name in references; else the slug of the title",
    ),
    Field::new("title", Shape::Text, "how the block is headed"),
    Field::new("note", Shape::Text, "anything worth keeping, printed as written"),
    Field::new("tags", Shape::List(&Shape::Text), "words to find it by"),
    Field::new(
        "acknowledge",
        Shape::Each(&Shape::Text),
        "rule names to the reason why they are accepted here",
    ),
    Field::new(
        "expects",
        Shape::List(&Shape::Text),
        "rule names that this block is meant to show",
    ),
];
