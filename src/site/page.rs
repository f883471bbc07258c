//! A page of the notebook, and what every page of the site shows.

use std::collections::BTreeSet;

use serde::Serialize;

use super::context::Context;
use super::names::Names;
use super::{SiteFault, SiteFile, Templates, prose, sheets};
use crate::views::page::{FindingView, PageView, Piece, SiteView};

/// What the templates know on every page: `site` and `names`.
pub(super) fn common(site: &SiteView<'_>, names: &Names) -> Context {
    #[derive(Serialize)]
    struct Common<'s> {
        title: &'s str,
        by: Option<&'s str>,
        language: &'s str,
        version: &'s str,
    }
    let mut context = Context::new();
    context.insert(
        "site",
        &Common {
            title: &site.title,
            by: site.by.as_deref(),
            language: &site.language,
            version: &site.version,
        },
    );
    context.insert("names", names);
    context
}

/// A link to another page, from the site's root.
#[derive(Debug, Serialize)]
pub(super) struct Turn<'s> {
    pub(super) path: &'s str,
    pub(super) title: &'s str,
}

/// Renders `page`, which stands at `at` in reading order.
pub(super) fn render(
    site: &SiteView<'_>,
    at: usize,
    page: &PageView<'_>,
    common: &Context,
    plan: &sheets::Plan,
    templates: &Templates,
) -> Result<SiteFile, SiteFault> {
    let prose = prose::render(page);
    let in_blocks: BTreeSet<_> = page
        .body
        .iter()
        .filter_map(|piece| {
            if let Piece::Block(block) = piece {
                Some(&block.findings)
            } else {
                None
            }
        })
        .flatten()
        .map(place)
        .collect();
    let loose: Vec<&FindingView> = page
        .findings
        .iter()
        .filter(|finding| !in_blocks.contains(&place(finding)))
        .collect();
    let turn = |at: Option<usize>| {
        let page = site.pages.get(at?)?;
        Some(Turn {
            path: &page.path,
            title: &page.title,
        })
    };

    let mut context = common.clone();
    context.insert("here", "page");
    context.insert("root", &page.root);
    context.insert("title", &page.title);
    context.insert("opening", &prose.opening);
    context.insert("date", &page.date);
    context.insert("tags", &page.tags);
    context.insert("parts", &prose.parts);
    context.insert("loose", &loose);
    context.insert("tally", &tally(&page.findings));
    context.insert("tally_href", &plan.findings_of(at));
    context.insert("before", &turn(at.checked_sub(1)));
    context.insert("after", &turn(Some(at + 1)));
    let html = templates.render("site/page.html", &context)?;
    Ok(SiteFile::of(page.path.clone(), html))
}

/// Such as `1 hazard, 2 doubts`, of those that count; empty where there are none.
pub(super) fn tally(findings: &[FindingView]) -> String {
    let mut counts: Vec<(&str, usize)> = Vec::new();
    for finding in findings.iter().filter(|finding| finding.standing.is_none()) {
        match counts.iter_mut().find(|(grade, _)| *grade == finding.grade) {
            Some((_, count)) => *count += 1,
            None => counts.push((&finding.grade, 1)),
        }
    }
    let words: Vec<String> = counts
        .iter()
        .map(|(grade, count)| format!("{count} {grade}{}", if *count == 1 { "" } else { "s" }))
        .collect();
    words.join(", ")
}

/// What tells one finding from another.
pub(super) fn place(finding: &FindingView) -> (&str, usize, usize, &str, &str) {
    (
        &finding.path,
        finding.line,
        finding.column,
        &finding.rule,
        &finding.message,
    )
}
