//! What a rule sees, and where it reports.

use std::cell::Cell;

use crate::facts::{Bath, Facts};
use crate::finding::{Finding, Grade, Slug};
use crate::notebook::{Block, Notebook};
use crate::source::Span;

use super::mixture::Mixture;
use super::rule::Rule;

/// What a rule sees.
#[derive(Debug, Clone, Copy)]
pub struct Context<'n> {
    /// The notebook.
    pub notebook: &'n Notebook,
    /// Its facts.
    pub facts: &'n Facts,
    /// Every recipe, and every batch that took something else or another amount.
    pub(super) mixed: &'n [Mixture<'n>],
}

impl<'n> Context<'n> {
    /// Every recipe with its bath.
    pub fn baths(&self) -> impl Iterator<Item = (&'n Block, &'n Bath)> + use<'n> {
        let facts = self.facts;
        let recipes = self.notebook.recipes();
        recipes.filter_map(move |(block, _)| Some((block, facts.baths.get(&block.id)?)))
    }
}

/// Where a rule reports.
#[derive(Debug)]
pub struct Report {
    findings: Vec<Finding>,
    rule: Slug,
    grade: Grade,
    /// Whether the rule looked at what was said before it.
    asked: Cell<bool>,
}

impl Report {
    /// A report of this rule, behind what others have said.
    pub(super) fn after(said: Vec<Finding>, rule: &Rule) -> Self {
        Self {
            findings: said,
            rule: rule.name,
            grade: rule.grade,
            asked: Cell::new(false),
        }
    }

    /// What was said so far, by this rule and by those before it in the catalogue.
    pub(super) fn said(&self) -> &[Finding] {
        self.asked.set(true);
        &self.findings
    }

    /// All that was said; none where the rule looked at what was said before it, and may now say something else.
    pub(super) fn unasked(self) -> Option<Vec<Finding>> {
        (!self.asked.get()).then_some(self.findings)
    }

    /// All that was said.
    pub(super) fn end(self) -> Vec<Finding> {
        self.findings
    }

    /// A finding of the rule at hand, to which help and places can be added before it is [`Report::add`]ed.
    pub fn finding(&self, span: Span, message: impl Into<String>) -> Finding {
        Finding::new(self.rule, self.grade, span, message)
    }

    /// A finding with a grade of its own, for rules whose threshold has two steps.
    pub fn graded(&self, grade: Grade, span: Span, message: impl Into<String>) -> Finding {
        Finding::new(self.rule, grade, span, message)
    }

    /// Reports a finding.
    pub fn add(&mut self, finding: Finding) {
        self.findings.push(finding);
    }
}
