//! A template that does not hold.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::TEMPLATE_BROKEN,
    grade: Grade::Fault,
    group: Group::Print,
    looks_for: "A mistake in a template that the notebook brings along.",
    why: "Nothing that is made with this template can be pressed.",
    instead: "Mend the line that is named, or take the template out of the notebook so that the usual one is used.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[],
    check: None,
};
