//! Where references lead: each meets a block of the right kind, or is reported.

use crate::finding::{Finding, slug as rule};

use super::lower::{Pending, list};
use super::{Block, Kind, Notebook, nearest};

/// A reference meets a block of the right kind, or is reported.
pub(super) fn resolve(notebook: &Notebook, reference: &Pending) -> Option<Finding> {
    let id = &reference.id;
    let Some(block) = notebook.block(&id.value) else {
        let (wanted, one) = match reference.kinds {
            [kind] => (kind.word(), format!("{} block", kind.with_article())),
            _ => ("block", "a block".to_owned()),
        };
        let finding = Finding::fault(
            rule::REFERENCE_UNKNOWN,
            id.span,
            format!("there is no {wanted} `{}`", id.value),
        );
        return match suggestion(notebook, id, reference.kinds) {
            None if notebook.lost_a_name(reference.kinds) => None,
            Some(near) => Some(
                finding
                    .help(format!("did you mean `{near}`?"))
                    .replace(id.span, near),
            ),
            None => Some(finding.help(format!("write the id of {one} of this notebook"))),
        };
    };
    let is_wanted = |block: &Block| reference.kinds.contains(&block.kind());
    // Where the name was taken twice, which is told already, the second block may be meant.
    let mut others = notebook.blocks.iter().filter(|block| block.id == id.value);
    if is_wanted(block) || others.any(is_wanted) {
        return None;
    }
    let wanted: Vec<&str> = reference.kinds.iter().map(|kind| kind.word()).collect();
    let message = format!(
        "`{}` is {}, a reference to {} is wanted here",
        id.value,
        block.kind().with_article(),
        list(&wanted)
    );
    let finding = Finding::fault(rule::REFERENCE_KIND, id.span, message)
        .relate(block.head, format!("`{}` is here", id.value));
    Some(match suggestion(notebook, id, reference.kinds) {
        Some(near) => finding
            .help(format!("did you mean `{near}`?"))
            .replace(id.span, near),
        None => finding,
    })
}

fn suggestion(notebook: &Notebook, id: &str, kinds: &[Kind]) -> Option<String> {
    let ids = notebook.ids().filter(|id| {
        notebook
            .block(id)
            .is_some_and(|block| kinds.contains(&block.kind()))
    });
    nearest(id, ids).map(str::to_owned)
}
