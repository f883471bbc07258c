//! A folder that is no notebook.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::NO_SETTINGS,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A folder without `trayside.yaml`.",
    why: "Without it there is no zone for the dates and no title for what is pressed, and it may be the wrong folder altogether.",
    instead: "Make a `trayside.yaml` with at least `title:` and `zone:`, or start with `trayside begin`.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[],
    check: None,
};
