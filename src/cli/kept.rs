//! What a press kept of recipes, in words.

use std::fmt::Write as _;

use crate::pipeline::Keeping;

/// Batches that are named one by one.
const NAMED: usize = 3;

/// A line for each batch whose recipe was kept, with how to have it otherwise; of many, one for all; and why others were not.
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

/// The same press after press: what went wrong is said again only once it is another, or was mended in between.
pub(super) fn said_again(keeping: &Keeping, trouble: &mut Option<String>) -> String {
    let known = std::mem::replace(trouble, keeping.trouble.clone());
    let news = Keeping {
        trouble: keeping.trouble.clone().filter(|why| known.as_ref() != Some(why)),
        ..keeping.clone()
    };
    said(&news)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn trouble_is_told_once_until_it_changes() {
        let mut known = None;
        let mut tell = |why: Option<&str>| {
            let keeping = Keeping {
                trouble: why.map(str::to_owned),
                ..Keeping::default()
            };
            said_again(&keeping, &mut known)
        };
        assert!(tell(Some("the disk is full")).contains("the disk is full"));
        assert_eq!(tell(Some("the disk is full")), "");
        assert!(tell(Some("kept is a file")).contains("kept is a file"));
        assert_eq!(tell(None), "");
        assert!(tell(Some("kept is a file")).contains("kept is a file"));
    }
}
