//! From a notebook to its site: every public page, in reading order.

use std::collections::BTreeSet;

use rayon::prelude::*;

use crate::facts::{Bath, Facts};
use crate::finding::{Finding, slug};
use crate::notebook::{Block, Notebook, When};
use crate::source::{FileId, Sources};

use super::block_view::Desk;
use super::blocks::Uses;
use super::finding_view::{self, Found};
use super::page::{CardLink, FindingView, PageView, SiteView};
use super::paths::{Places, root_of};
use super::words::{Speech, words_of};
use super::{clocks, contact, pictures, prose, scaling};

/// The language of the fixed words where the notebook names none.
const LANGUAGE: &str = "en";

/// The site of a notebook. Pages whose audience is private are left out, with all that stands on them.
pub fn site<'a>(
    notebook: &'a Notebook,
    facts: &'a Facts,
    findings: &'a [Finding],
    sources: &'a Sources,
    cards: &[CardLink],
    version: &str,
) -> SiteView<'a> {
    view(notebook, facts, findings, sources, cards, version, None).0
}

/// The same site of which only some pages have a body, and the places of those among its pages.
pub fn outline<'a>(
    notebook: &'a Notebook,
    facts: &'a Facts,
    findings: &'a [Finding],
    sources: &'a Sources,
    cards: &[CardLink],
    version: &str,
    bodies: &BTreeSet<FileId>,
) -> (SiteView<'a>, Vec<usize>) {
    view(notebook, facts, findings, sources, cards, version, Some(bodies))
}

fn view<'a>(
    notebook: &'a Notebook,
    facts: &'a Facts,
    findings: &'a [Finding],
    sources: &'a Sources,
    cards: &[CardLink],
    version: &str,
    bodies: Option<&BTreeSet<FileId>>,
) -> (SiteView<'a>, Vec<usize>) {
    let has_body = |file| bodies.is_none_or(|bodies| bodies.contains(&file));
    let places = Places::of(notebook);
    let cards: Vec<CardLink> = cards
        .iter()
        .filter(|card| places.is_open(&card.id))
        .cloned()
        .collect();
    let is_taken = |path: &str| {
        let mut pages = places.site_paths();
        pages.any(|page| page.to_lowercase() == path)
    };
    let found = Found::of(findings, &places, sources);
    let left_out = super::cards::left_out(notebook, facts, findings);
    let mut desk = Desk {
        clocks: clocks::paths(notebook, facts, findings, |id| places.is_open(id), is_taken),
        notebook,
        facts,
        findings,
        sources,
        found,
        uses: Uses::default(),
        cards: cards
            .iter()
            .map(|card| (card.id.clone(), card.href.clone()))
            .collect(),
        style: notebook.settings.style,
        words: words_of(notebook),
        left_out,
        missing: findings
            .iter()
            .filter(|finding| finding.rule == slug::PICTURE_MISSING)
            .map(|finding| finding.span)
            .collect(),
        places,
    };
    // What a block is used by stands in bodies alone.
    let heads = || {
        desk.places
            .order()
            .par_iter()
            .filter_map(|&at| Some((at, head(&desk, at)?)))
    };
    let (uses, heads): (_, Vec<(usize, PageView<'_>)>) =
        rayon::join(|| Uses::of(notebook, &desk.places), || heads().collect());
    desk.uses = uses;
    let (pages, shown): (Vec<_>, Vec<_>) = heads
        .into_par_iter()
        .map(|(at, page)| fill(&desk, page, at, &has_body))
        .unzip();
    let elsewhere = desk
        .found
        .files()
        .filter(|file| desk.places.site_path(*file).is_none())
        .flat_map(|file| finding_views(&desk, file, &[]));
    let findings = elsewhere
        .chain(pages.iter().flat_map(|page: &PageView<'_>| page.findings.clone()))
        .collect();
    let order = desk.places.order().iter().enumerate();
    let bodies_at = order.filter_map(|(place, &at)| {
        let head = notebook.pages.get(at)?;
        has_body(head.file).then_some(place)
    });
    let bodies_at = bodies_at.collect();
    let settings = &notebook.settings;
    let frame_count = contact::count(&desk);
    let frames = if bodies.is_some() {
        Vec::new()
    } else {
        contact::frames(&desk)
    };
    let view = SiteView {
        title: settings.title.get().map_or_else(
            || desk.words.site.page.notebook.to_owned(),
            |title| title.value.clone(),
        ),
        by: settings.by.get().map(|by| by.value.clone()),
        language: settings
            .language
            .get()
            .map_or_else(|| LANGUAGE.to_owned(), |language| language.value.clone()),
        clocks: if bodies.is_some() {
            Vec::new()
        } else {
            clocks::pages(&desk)
        },
        base: settings
            .press
            .site
            .as_ref()
            .and_then(|site| site.base.get())
            .map(|base| base.value.clone()),
        pages,
        frames,
        frame_count,
        findings,
        summary: desk.found.summary(&desk.words.site.finding),
        words: Speech::of(desk.style.language),
        pictures: pictures::needs(shown.into_iter().flatten().collect()),
        version: version.to_owned(),
        cards,
    };
    (view, bodies_at)
}

/// A page without its body.
fn head<'a>(desk: &Desk<'a>, at: usize) -> Option<PageView<'a>> {
    let head = desk.notebook.pages.get(at)?;
    let path = desk.places.site_path(head.file)?.to_owned();
    let date = head.date.get().map(|date| &date.value);
    Some(PageView {
        root: root_of(&path).to_owned(),
        path,
        title: head.title.clone(),
        date: date.map(|date| date.written.clone()),
        day: date.map(|date| date.at.date().to_string()),
        moment: date.map(|date| date.instant().to_string()),
        stamp: date.map(When::rfc3339),
        timed: date.is_some_and(|date| date.timed),
        tags: head.tags.iter().map(|tag| tag.value.clone()).collect(),
        body: Vec::new(),
        findings: finding_views(desk, head.file, desk.notebook.blocks_on(head.file)),
        scaling: None,
    })
}

/// Gives a page its body, where it is to have one, with the pictures that it shows as paths in the notebook.
fn fill<'a>(
    desk: &Desk<'a>,
    page: PageView<'a>,
    at: usize,
    has_body: &(dyn Fn(FileId) -> bool + Sync),
) -> (PageView<'a>, BTreeSet<String>) {
    let notebook = desk.notebook;
    let (Some(head), Some(text)) = (notebook.pages.get(at), notebook.texts.get(at)) else {
        return (page, BTreeSet::new());
    };
    if !has_body(head.file) {
        return (page, BTreeSet::new());
    }
    let blocks = notebook.blocks_on(head.file);
    let body = prose::body(desk, head, text, blocks);
    let page = PageView {
        body: body.pieces,
        scaling: scaling::of_page(notebook, &scaled(desk, blocks)),
        ..page
    };
    (page, body.pictures)
}

/// The recipes of a page that it may scale.
fn scaled<'a>(desk: &Desk<'a>, blocks: &'a [Block]) -> Vec<(&'a Block, &'a Bath)> {
    let scaled = |block: &'a Block| Some((block, desk.scaled(block)?));
    blocks.iter().filter_map(scaled).collect()
}

/// The findings of a file, each with the address of the block it stands in.
fn finding_views(desk: &Desk<'_>, file: FileId, blocks: &[Block]) -> Vec<FindingView> {
    desk.found
        .of_file(file)
        .into_iter()
        .map(|finding| {
            let after = blocks.partition_point(|block| block.span.start <= finding.span.start);
            let href = after
                .checked_sub(1)
                .and_then(|at| blocks.get(at))
                .filter(|block| finding.span.start < block.span.end)
                .and_then(|block| desk.places.block_from_root(block));
            finding_view::view(finding, desk, href)
        })
        .collect()
}
