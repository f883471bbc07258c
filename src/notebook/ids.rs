//! From ids and kinds to the blocks that have them.

use std::collections::BTreeMap;

use crate::finding::{Finding, slug as rule};
use crate::source::{ByName, Span};

use super::{Block, Kind, Notebook};

impl Notebook {
    /// Finds every id its block, the first where a second has the same, which is reported; and every kind its blocks.
    pub(super) fn find_blocks(&mut self, findings: &mut Vec<Finding>) {
        let mut index: ByName<String, usize> = ByName::default();
        let mut kinds: BTreeMap<Kind, Vec<usize>> = BTreeMap::new();
        for at in 0..self.blocks.len() {
            let Some(block) = self.blocks.get(at) else { break };
            kinds.entry(block.kind()).or_default().push(at);
            let first = index.get(&block.id).and_then(|first| self.blocks.get(*first));
            let is_doubled = first.is_some();
            match first {
                Some(first) => findings.push(taken(block, first)),
                None => {
                    index.insert(block.id.clone(), at);
                }
            }
            if let Some(block) = self.blocks.get_mut(at) {
                block.doubled = is_doubled;
            }
        }
        (self.index, self.kinds) = (index, kinds);
    }
}

fn taken(second: &Block, first: &Block) -> Finding {
    Finding::fault(
        rule::ID_DUPLICATE,
        id_span(second),
        format!("the id `{}` is taken", second.id),
    )
    .help("give this one an `id:` of its own")
    .relate(id_span(first), "first used here")
}

/// Where a block's id was written, or what it was made from.
fn id_span(block: &Block) -> Span {
    block
        .id_span
        .or(block.title.as_ref().map(|title| title.span))
        .unwrap_or(block.head)
}
