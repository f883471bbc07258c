//! What the trade would warn of: a catalogue of rules, each in a file of its own with its reason, its source and an
//! example of both kinds.
//!
//! Rules read the notebook and the facts, and materials by formula, role and property, never by name.

mod baths;
mod burning_acid;
mod catalogue;
mod context;
mod explain;
mod exposure;
mod figures;
mod last_use;
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

use rayon::prelude::*;

use crate::facts::Facts;
use crate::finding::Finding;
use crate::notebook::Notebook;

/// Everything the rules find, in the order of the catalogue.
///
/// Rules run side by side, each as if it were the first to speak. One that looks at what was said before it is run again in
/// its turn, when all of that is known.
pub fn check(notebook: &Notebook, facts: &Facts) -> Vec<Finding> {
    let bare = Context {
        notebook,
        facts,
        mixed: &[],
    };
    let mixed = mixture::mixed(&bare);
    let context = Context {
        mixed: &mixed,
        ..bare
    };
    let rules: Vec<_> = catalogue().filter_map(|rule| Some((rule, rule.check?))).collect();
    let alone: Vec<Option<Vec<Finding>>> = rules
        .par_iter()
        .with_max_len(1)
        .map(|(rule, check)| {
            let mut report = Report::after(Vec::new(), rule);
            check(&context, &mut report);
            report.unasked()
        })
        .collect();
    let mut said = Vec::new();
    for ((rule, check), alone) in rules.into_iter().zip(alone) {
        if let Some(found) = alone {
            said.extend(found);
            continue;
        }
        let mut report = Report::after(said, rule);
        check(&context, &mut report);
        said = report.end();
    }
    said
}
