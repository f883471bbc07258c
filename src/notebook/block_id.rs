//! The id of a block, by which all else refers to it.

use crate::finding::{Finding, slug as rule};
use crate::source::{Span, Spanned};
use crate::syntax::slug;

use super::lower::Lower;
use super::slot::Slot;
use super::{Body, Kind, When};

/// The block's id: as written, else from its title, its material, or its kind and date.
pub(super) fn name(
    lower: &mut Lower,
    kind: Kind,
    head: Span,
    id: &Slot<Spanned<String>>,
    title: &Slot<Spanned<String>>,
    body: &Body,
    incomplete: bool,
) -> Option<String> {
    if let Some(id) = id.get() {
        let good = !id.value.is_empty()
            && id
                .value
                .chars()
                .all(|c| c.is_alphanumeric() || matches!(c, '-' | '_'));
        if good {
            return Some(id.value.clone());
        }
        let better = slug(&id.value);
        let mut finding = Finding::fault(
            rule::ID_MALFORMED,
            id.span,
            format!("`{}` cannot be an id", id.value),
        );
        finding = if better.is_empty() {
            finding.help("write letters, digits and hyphens")
        } else {
            finding
                .help(format!("write letters, digits and hyphens: `{better}`"))
                .replace(id.span, better.clone())
        };
        lower.report(finding);
        lower.misnamed.push(id.value.clone());
        return (!better.is_empty()).then_some(better);
    }
    let from_title = title
        .get()
        .map(|title| slug(&title.value))
        .filter(|slug| !slug.is_empty());
    let from_body = || match body {
        Body::Ingredient(ingredient) => ingredient.material.get().map(|name| slug(&name.value)),
        Body::Exposure(exposure) => dated(kind, &exposure.when),
        Body::Print(print) => dated(kind, &print.when),
        Body::Batch(batch) => dated(kind, &batch.made),
        Body::Session(session) => dated(kind, &session.when),
        _ => None,
    };
    let named = from_title.or_else(from_body).filter(|name| !name.is_empty());
    let quiet = incomplete || id.is_broken() || title.is_broken() || body_is_broken(body);
    if named.is_none() && !quiet {
        lower.report(
            Finding::fault(
                rule::ID_MISSING,
                head,
                format!("{} needs a name", kind.with_article()),
            )
            .help("add `title: ...`, or `id: ...` to refer to it"),
        );
    }
    named
}

/// Whether what a name would be made from is missing or broken, which has a finding of its own.
fn body_is_broken(body: &Body) -> bool {
    match body {
        Body::Ingredient(ingredient) => ingredient.material.get().is_none(),
        Body::Exposure(exposure) => exposure.when.get().is_none(),
        Body::Print(print) => print.when.get().is_none(),
        Body::Batch(batch) => batch.made.get().is_none(),
        Body::Session(session) => session.when.get().is_none(),
        _ => false,
    }
}

fn dated(kind: Kind, when: &Slot<Spanned<When>>) -> Option<String> {
    when.get()
        .map(|when| format!("{}-{}", kind.word(), slug(&when.value.written)))
}
