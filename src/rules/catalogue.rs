//! Every rule, in the order of the book.

use super::rule::Rule;
use super::{baths, exposure, line, materials, print, reading, room};

/// The groups of rules, in the order of the book. Each group's folder lists its own.
const GROUPS: &[&[&Rule]] = &[
    reading::RULES,
    materials::RULES,
    baths::RULES,
    line::RULES,
    exposure::RULES,
    room::RULES,
    print::RULES,
];

/// Every rule, in the order of the book.
pub fn catalogue() -> impl Iterator<Item = &'static Rule> {
    GROUPS.iter().flat_map(|group| group.iter().copied())
}

/// The rule of a name.
pub fn find(name: &str) -> Option<&'static Rule> {
    catalogue().find(|rule| rule.name.as_str() == name)
}
