//! A page of the notebook, and what every page of the site shows.

use std::collections::BTreeSet;

use serde::Serialize;

use super::clock::inert;
use super::context::Context;
use super::lasting::Lasting;
use super::names::Names;
use super::search::PageIndex;
use super::tags::Tags;
use super::{SiteFault, SiteFile, Templates, prose, sheets, summary};
use crate::views::page::{FindingView, PageView, Piece, SiteView};

/// What the templates know on every page: `site` and `names`.
pub(super) fn common(site: &SiteView<'_>, names: &Names) -> Context {
    #[derive(Serialize)]
    struct Common<'s> {
        frames: usize,
        journal: bool,
        tags: bool,
        base: Option<&'s str>,
        /// Whether there is a feed.
        feed: bool,
        title: &'s str,
        by: Option<&'s str>,
        language: &'s str,
        version: &'s str,
    }
    let dated = site.pages.iter().any(|page| page.moment.is_some());
    let mut context = Context::new();
    context.insert(
        "site",
        &Common {
            frames: site.frames.len(),
            journal: dated,
            tags: site.pages.iter().any(|page| !page.tags.is_empty()),
            base: site.base.as_deref(),
            feed: dated && site.base.is_some(),
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

/// What a page has to know of the rest of the site.
#[derive(Debug)]
pub(super) struct Around<'s> {
    /// Where its findings stand.
    pub(super) plan: sheets::Plan,
    /// Where the pages of its tags are listed.
    pub(super) tags: Tags,
    /// Where its blocks are found for good.
    pub(super) lasting: Lasting<'s>,
}

impl<'s> Around<'s> {
    /// Around the pages of a site.
    pub(super) fn of(site: &'s SiteView<'_>, names: &Names) -> Self {
        Self {
            plan: sheets::Plan::of(site, names),
            tags: Tags::of(site, names),
            lasting: Lasting::of(site, names),
        }
    }
}

/// What was read of a page while it was rendered.
#[derive(Debug)]
pub(super) struct Made {
    /// What the search has to know.
    pub(super) index: PageIndex,
    /// Its first words.
    pub(super) summary: String,
}

/// Renders `page`, which stands at `at` in reading order, and reads what the search and the journal have to know of it.
pub(super) fn render(
    site: &SiteView<'_>,
    at: usize,
    page: &PageView<'_>,
    common: &Context,
    around: &Around<'_>,
    templates: &Templates,
) -> Result<(SiteFile, Made), SiteFault> {
    let prose = prose::render(page);
    let summary = summary::of(&prose);
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
    context.insert("moment", &page.moment);
    context.insert("here_path", &page.path);
    context.insert("summary", &summary);
    context.insert("tags", &page.tags);
    context.insert("tag_links", &around.tags.links(page));
    context.insert("lasting", &around.lasting.on(page));
    context.insert("parts", &prose.parts);
    context.insert("scaling", &page.scaling.as_deref().map(inert));
    context.insert("say", &page.scaling.is_some().then_some(&site.scale_words));
    context.insert("loose", &loose);
    context.insert("tally", &tally(&page.findings));
    context.insert("tally_href", &around.plan.findings_of(at));
    context.insert("before", &turn(at.checked_sub(1)));
    context.insert("after", &turn(Some(at + 1)));
    let html = templates.render("site/page.html", &context)?;
    let made = Made {
        index: PageIndex::of(page, &prose, &loose),
        summary,
    };
    Ok((SiteFile::text(page.path.clone(), html), made))
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
