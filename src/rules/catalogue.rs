//! Every rule, in the order of the book.

use super::rule::Rule;

/// Every rule, in the order of the book.
pub const CATALOGUE: &[Rule] = &[];

/// The rule of a name.
pub fn find(name: &str) -> Option<&'static Rule> {
    CATALOGUE.iter().find(|rule| rule.name.as_str() == name)
}
