//! Where a rule points: inside the block it speaks of, never at what another block already answers for.

use crate::facts::Bath;
use crate::notebook::Block;
use crate::source::Span;

/// Whether a place lies in a block.
pub(super) fn within(block: &Block, span: Span) -> bool {
    block.span.holds(span)
}

/// The first of several places that lies in the block. None where all were taken over by `based on`: the base answers
/// for those.
pub(super) fn place(block: &Block, spans: impl IntoIterator<Item = Span>) -> Option<Span> {
    spans.into_iter().find(|span| within(block, *span))
}

/// The same for a hazard, which every bath that has it must say: at the reference to the base, else at the block's head.
pub(super) fn hazard_place(block: &Block, bath: &Bath, spans: impl IntoIterator<Item = Span>) -> Span {
    let taken_over = bath.recipe.based_on.get().map(|base| base.span);
    place(block, spans)
        .or(taken_over.filter(|span| within(block, *span)))
        .unwrap_or(block.head)
}

/// Where to say that something is missing from a bath: at its role, or at its head where the role is not its own.
pub(super) fn head(block: &Block, bath: &Bath) -> Span {
    place(block, [bath.role_span(block.head)]).unwrap_or(block.head)
}

/// Whether a bath stands on its own: what is missing from a base is said there.
pub(super) fn own(bath: &Bath) -> bool {
    bath.complete && bath.recipe.based_on.is_absent()
}
