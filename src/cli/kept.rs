//! What a press kept of recipes, in words.

use std::fmt::Write as _;

use crate::pipeline::Keeping;

/// Batches that are named one by one.
const NAMED: usize = 3;

/// A line for each batch whose recipe was kept, with how to have it otherwise; of many, one for all.
pub(super) fn said(keeping: &Keeping) -> String {
    let mut out = String::new();
    let count = keeping.batches.len();
    if count > NAMED {
        let _ = writeln!(
            out,
            "kept the recipes of {count} batches as they are now, in kept/; to undo one, delete its file in kept/batches/"
        );
    } else {
        for (batch, recipe, path) in &keeping.batches {
            let _ = writeln!(
                out,
                "kept {recipe} as it is now, by which {batch} was mixed; to undo, delete {path}"
            );
        }
    }
    if let Some(why) = &keeping.trouble {
        let _ = writeln!(out, "recipes of new batches are not kept: {why}");
    }
    out
}
