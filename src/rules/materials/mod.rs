//! Amounts and materials: the wrong soda, a heaped spoon, a percentage of nothing.

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[];
