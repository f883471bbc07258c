//! What a rule sees, and where it reports.

use crate::facts::{Bath, Facts};
use crate::finding::{Finding, Grade, Slug, slug};
use crate::notebook::{Block, Body, Notebook};
use crate::source::Span;

use super::rule::Rule;

/// What a rule sees.
#[derive(Debug, Clone, Copy)]
pub struct Context<'n> {
    /// The notebook.
    pub notebook: &'n Notebook,
    /// Its facts.
    pub facts: &'n Facts,
}

impl<'n> Context<'n> {
    /// Every recipe with its bath.
    pub fn baths(&self) -> impl Iterator<Item = (&'n Block, &'n Bath)> + use<'n> {
        let facts = self.facts;
        self.notebook.blocks.iter().filter_map(move |block| {
            let bath = facts.baths.get(&block.id)?;
            matches!(block.body, Body::Recipe(_)).then_some((block, bath))
        })
    }
}

/// Where a rule reports.
#[derive(Debug)]
pub struct Report {
    /// What was found.
    pub findings: Vec<Finding>,
    rule: Slug,
    grade: Grade,
}

impl Default for Report {
    fn default() -> Self {
        Self {
            findings: Vec::new(),
            rule: slug::FACT_UNKNOWN,
            grade: Grade::Hint,
        }
    }
}

impl Report {
    /// From here on, findings are this rule's.
    pub(super) fn enter(&mut self, rule: &Rule) {
        self.rule = rule.name;
        self.grade = rule.grade;
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
