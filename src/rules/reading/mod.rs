//! Files, pages and blocks that cannot be read as they stand.

use super::rule::Rule;

/// The rules of this group, in the order of the book.
pub(super) const RULES: &[&Rule] = &[];
