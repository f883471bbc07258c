//! The line of baths: stop, rinse, fix, wash.

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[];
