//! What is seen only when it is pressed.

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[];
