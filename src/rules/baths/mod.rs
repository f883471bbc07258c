//! Mixing and keeping baths.

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[];
