//! A figure of a private page in the words of a public one.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::FACT_PRIVATE,
    grade: Grade::Doubt,
    group: Group::Reading,
    looks_for: "A `{{ id.fact }}` on a public page that names a block of a private page, one that is computed from such a block, or what was learnt from a private sheet.",
    why: "The site leaves the figure out, so that nothing private is told; the sentence stands there with a hole in it.",
    instead: "Leave the figure out of the sentence, or give its page `audience: public`.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[],
    check: None,
};
