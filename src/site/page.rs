//! A page of the notebook, and what every page of the site shows.

use std::collections::BTreeSet;
use std::sync::Arc;

use serde::Serialize;

use super::clock::inert;
use super::context::{Context, Digest};
use super::lasting::Lasting;
use super::names::Names;
use super::search::PageIndex;
use super::tags::Tags;
use super::{SiteFault, SiteFile, Templates, prose, sheets, summary};
use crate::views;
use crate::views::page::{FindingView, PageView, Piece, SiteView};

/// The language of findings, and of how facts come about.
const ENGLISH: &str = "en";

/// What the templates know on every page: `site`, `names` and `words`.
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
        /// What marks the site's own words, where they are in another language than the notebook.
        ours: String,
        /// What marks the notebook's words among them.
        theirs: String,
        /// What marks English, where the notebook is in another language.
        english: &'static str,
        unreviewed: Option<&'static str>,
    }
    let dated = site.pages.iter().any(|page| page.moment.is_some());
    let mut context = Context::new();
    context.insert(
        "site",
        &Common {
            frames: site.frame_count,
            journal: dated,
            tags: site.pages.iter().any(|page| !page.tags.is_empty()),
            base: site.base.as_deref(),
            feed: dated && site.base.is_some(),
            title: &site.title,
            by: site.by.as_deref(),
            language: &site.language,
            version: &site.version,
            ours: ours(site),
            theirs: if ours(site).is_empty() {
                String::new()
            } else {
                format!(" lang=\"{}\"", site.language)
            },
            english: if site.language == ENGLISH {
                ""
            } else {
                " lang=\"en\""
            },
            unreviewed: site.words.unreviewed,
        },
    );
    context.insert("words", &site.words.on_pages());
    context.insert("names", names);
    context.shared()
}

/// The attribute of what the site says itself, where it does so in another language than that of the notebook.
pub(super) fn ours(site: &SiteView<'_>) -> String {
    let code = site.words.code;
    if site.language == code {
        String::new()
    } else {
        format!(" lang=\"{code}\"")
    }
}

/// A link to another page, from the site's root.
#[derive(Debug, Hash, Serialize)]
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
) -> Result<(SiteFile, Arc<Made>), SiteFault> {
    let turn = |at: Option<usize>| {
        let page = site.pages.get(at?)?;
        Some(Turn {
            path: &page.path,
            title: &page.title,
        })
    };
    let (before, after) = (turn(at.checked_sub(1)), turn(Some(at + 1)));
    let (tags, lasting) = (around.tags.links(page), around.lasting.on(page));
    let tally_href = around.plan.findings_of(at);
    // All that stands below is made of these; the words stand in `common`.
    let digest = Digest::of(&(
        common.digest(),
        page,
        &tags,
        &lasting,
        tally_href,
        &before,
        &after,
    ));
    if let Some((html, made)) = templates.made_of(digest) {
        return Ok((SiteFile::text(page.path.clone(), html), made));
    }
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
    let mut values = common.values();
    values.insert("here", "page");
    values.insert("root", &page.root);
    values.insert("title", &page.title);
    values.insert("opening", &prose.opening);
    values.insert("date", &page.date);
    // A day is not said to be its first moment, which elsewhere belongs to the day before.
    values.insert("moment", if page.timed { &page.stamp } else { &page.day });
    values.insert("here_path", &page.path);
    values.insert("summary", &summary);
    values.insert("tags", &page.tags);
    values.insert("tag_links", &tags);
    values.insert("lasting", &lasting);
    values.insert("parts", &prose.parts);
    values.insert("scaling", &page.scaling.as_deref().map(inert));
    values.insert("loose", &loose);
    values.insert("tally", &tally(site, &page.findings));
    values.insert("tally_href", &tally_href);
    values.insert("before", &before);
    values.insert("after", &after);
    let made = Made {
        index: PageIndex::of(page, &prose, &loose, site.words),
        summary,
    };
    let (html, made) = templates.make("site/page.html", &values, digest, made)?;
    Ok((SiteFile::text(page.path.clone(), html), made))
}

/// Such as `1 hazard, 2 doubts`, of those that count; empty where there are none.
pub(super) fn tally(site: &SiteView<'_>, findings: &[FindingView]) -> String {
    let open = findings.iter().filter(|finding| finding.standing.is_none());
    views::tally(open.map(|finding| finding.grade), &site.words.site.finding)
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
