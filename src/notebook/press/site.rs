//! How the site is made.

use crate::finding::{Finding, slug};
use crate::source::Spanned;
use crate::syntax::Node;

use super::super::field::{Field, Shape};
use super::super::keys::Keys;
use super::super::lower::{Lower, text};
use super::super::slot::Slot;

/// How the site is made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SitePress {
    /// Address it will be found at: `http` or `https`, and a stroke at its end.
    pub base: Slot<Spanned<String>>,
}

pub(super) const FIELDS: &[Field] = &[
    Field::new("base address", Shape::Text, "the address it will be found at"),
    Field::new("base", Shape::Text, "the same, in short"),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> SitePress {
    SitePress {
        base: match keys.slot("base address", address) {
            Slot::Absent => keys.slot("base", address),
            base => base,
        },
    }
}

/// The address of a site, with a stroke at its end.
fn address(lower: &mut Lower, node: &Node) -> Option<Spanned<String>> {
    let written = text(lower, node)?;
    let trimmed = written.value.trim();
    let small = trimmed.to_ascii_lowercase();
    let rest = small
        .strip_prefix("https://")
        .or_else(|| small.strip_prefix("http://"));
    let whole = rest.is_some_and(|rest| {
        let host = rest.split(['/', ':']).next().unwrap_or("");
        !host.is_empty() && !rest.contains(['?', '#', '"', '<', '>', '\\', '@'])
    });
    if !whole || trimmed.chars().any(|c| c.is_whitespace() || c.is_control()) {
        lower.report(
            Finding::fault(
                slug::VALUE_SHAPE,
                written.span,
                format!("`{trimmed}` is not the address of a site"),
            )
            .help("write it whole, such as `https://example.org/notebook/`"),
        );
        return None;
    }
    Some(Spanned::new(
        format!("{}/", trimmed.trim_end_matches('/')),
        written.span,
    ))
}
