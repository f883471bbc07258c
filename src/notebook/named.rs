//! Keys that are free: the names of materials, or of facts, each with its amount.

use crate::finding::{Finding, slug};
use crate::source::Spanned;
use crate::syntax::{Entry, Node, NodeKind};
use crate::units::Dimension;

use super::ingredient::Form;
use super::keys::Keys;
use super::lower::{Figure, Lower};

/// A name, its amount, and what was said after the amount.
pub(super) type Named = (Spanned<String>, Figure, Option<String>);

/// Free keys with amounts: materials of a bath, contents of a material, expected facts.
pub(super) fn materials(keys: &mut Keys<'_, '_>, key: &str, dimensions: &[Dimension]) -> Vec<Named> {
    let entries = keys.free(key, "names with amounts", "borax: 2 g");
    let mut found = Vec::with_capacity(entries.len());
    let mut entries = entries.iter().peekable();
    while let Some(entry) = entries.next() {
        let mut name = entry.key.clone();
        let mut entry = entry;
        if entry.value.kind == NodeKind::Empty
            && let Some(next) = entries.next_if(|next| is_rest_of_name(entry, next))
        {
            name = Spanned::new(
                format!("{}, {}", name.value, next.key.value),
                name.span.to(next.key.span),
            );
            entry = next;
        }
        if entry.value.kind == NodeKind::Empty {
            keys.lower.report(
                Finding::fault(
                    slug::VALUE_MISSING,
                    entry.key.span,
                    format!("`{}` has no amount", entry.key.value),
                )
                .help("write the amount after the colon, such as `2 g`"),
            );
            continue;
        }
        if let Some((figure, remark)) = amount_and_remark(keys.lower, &entry.value, dimensions) {
            found.push((name, figure, remark));
        }
    }
    found
}

/// Whether `next` is what belongs behind the comma of a material's name: within braces, YAML takes
/// `{citric acid, anhydrous: 8 g}` and `{vinegar, 5 %: 200 ml}` for two keys each.
fn is_rest_of_name(entry: &Entry, next: &Entry) -> bool {
    let (before, after) = (entry.key.span, next.key.span);
    let adjacent = before.end < after.start && after.start - before.end <= 2;
    let word = next.key.value.trim();
    adjacent && (Form::WORDS.contains(&word) || word.starts_with(|c: char| c.is_ascii_digit()))
}

/// `30 g`, or `30 g, crushed`: what follows a comma and a space is the author's remark.
fn amount_and_remark(
    lower: &mut Lower,
    node: &Node,
    dimensions: &[Dimension],
) -> Option<(Figure, Option<String>)> {
    if let Some((at, text)) = node.text().and_then(|text| text.find(", ").map(|at| (at, text))) {
        let amount = lower.amount_in(node, 0..at, dimensions)?;
        let figure = Figure {
            span: amount.span,
            amount: amount.value,
            evidence: None,
            read_from: None,
        };
        return Some((figure, text.get(at + 2..).map(|remark| remark.trim().to_owned())));
    }
    lower.figure(node, dimensions).map(|figure| (figure, None))
}
