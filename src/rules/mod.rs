//! What the trade would warn of: a catalogue of rules, each in a file of its own with its reason, its source and an
//! example of both kinds.
//!
//! Rules read the notebook and the facts, and materials by formula, role and property, never by name.

mod baths;
mod catalogue;
mod context;
mod explain;
mod exposure;
mod ledger;
mod line;
mod materials;
mod mixture;
mod place;
mod print;
mod prose;
mod reading;
mod room;
mod rule;
mod settle;
mod steps;
mod substance;
mod told;
mod what_if;

pub use crate::syntax::resolve;
pub use catalogue::{catalogue, find};
pub use context::{Context, Report};
pub use explain::explain;
pub use prose::check_prose;
pub use rule::{Example, Group, Rule, Sureness};
pub use settle::settle;

use crate::facts::Facts;
use crate::finding::Finding;
use crate::notebook::Notebook;

/// Everything the rules find, in the order of the catalogue.
pub fn check(notebook: &Notebook, facts: &Facts) -> Vec<Finding> {
    let context = Context { notebook, facts };
    let mut report = Report::default();
    for rule in catalogue() {
        if let Some(check) = rule.check {
            report.enter(rule);
            check(&context, &mut report);
        }
    }
    report.findings
}
