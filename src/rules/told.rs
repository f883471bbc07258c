//! What other rules have said of a block already: one cause gives one finding.

use crate::finding::Slug;
use crate::notebook::Block;

use super::context::Report;
use super::place::within;

/// Whether one of these rules, which must stand before the asking one in the catalogue, has spoken of the block. Hints
/// count too where they name the cause.
pub(super) fn told(report: &Report, block: &Block, rules: &[Slug]) -> bool {
    report
        .findings
        .iter()
        .any(|finding| rules.contains(&finding.rule) && within(block, finding.span))
}
