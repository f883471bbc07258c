//! What other rules have said of a block already: one cause gives one finding.

use crate::finding::{Finding, Grade, Slug, slug};
use crate::notebook::Block;

use super::context::Report;
use super::place::within;

/// Whether one of these rules, which must stand before the asking one in the catalogue, has spoken of the block. Hints
/// count too where they name the cause.
pub(super) fn told(report: &Report, block: &Block, rules: &[Slug]) -> bool {
    report
        .said()
        .iter()
        .any(|finding| rules.contains(&finding.rule) && within(block, finding.span))
}

/// As [`told`], where what was said is at least as grave as `grade`: what is graver still has to be said.
pub(super) fn told_as_grave(report: &Report, block: &Block, rules: &[Slug], grade: Grade) -> bool {
    let grave = |finding: &&Finding| finding.grade <= grade;
    let mut said = report.said().iter().filter(grave);
    said.any(|finding| rules.contains(&finding.rule) && within(block, finding.span))
}

/// Rules that say why a bath's pH is not what its author thinks. Where one has spoken, a pH that was expected or measured
/// otherwise says nothing new.
pub(super) const PH_CAUSES: &[Slug] = &[
    slug::BAKING_SODA_ALONE,
    slug::BAKING_POWDER,
    slug::ALKALI_MISSING,
    slug::VITAMIN_C_OVER_SODA,
    slug::CAUSTIC_USED_UP,
    slug::SODA_FORM_MISSING,
    slug::STOP_STRENGTH,
    slug::PH_OUTSIDE_WINDOW,
    slug::STOP_NOT_ACID,
    slug::FIXER_SULFURISES,
    slug::SOLUBILITY_EXCEEDED,
];

/// Rules that say of a bath that caustic rules its pH. That says nothing of how far it goes.
pub(super) const CAUSTIC_CAUSES: &[Slug] = &[slug::CAUSTIC_USED_UP, slug::CAUSTIC_PRESENT];

/// Rules that say why a bath does not work at its pH, or soon will not. Where one has spoken, a pH at or beyond the edge
/// says nothing new.
pub(super) const WINDOW_CAUSES: &[Slug] = &[
    slug::BAKING_SODA_ALONE,
    slug::VITAMIN_C_OVER_SODA,
    slug::ALKALI_MISSING,
    slug::SOLUBILITY_EXCEEDED,
    slug::EFFERVESCENT_TABLETS,
    slug::BAKING_POWDER,
    slug::REDUCTANT_STRANGE,
    slug::ACID_INTO_HYPO,
    slug::ALUM_IN_ALKALI,
    slug::MATERIAL_AMBIGUOUS,
];
