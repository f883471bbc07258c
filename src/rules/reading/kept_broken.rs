//! A file of `kept/` that is not as it was written.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::KEPT_BROKEN,
    grade: Grade::Doubt,
    group: Group::Reading,
    looks_for: "A file in `kept/` that was changed since it was written, names a text that is not there, or is one of two that say \
                different things of one batch.",
    why: "What stands there says by which text of its recipe a batch was mixed. If it can be changed afterwards, it says nothing.",
    instead: "Bring the file back from a copy or from another machine. Or delete it: the next press keeps the recipe as it is then. \
              Until that is done, the batch is taken as mixed by the recipe as it is now.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[],
    check: None,
};
