//! From a notebook to its site: every public page, in reading order.

use std::collections::BTreeSet;

use rayon::prelude::*;

use crate::facts::{Bath, Facts};
use crate::finding::{Finding, slug};
use crate::notebook::{Block, Notebook};
use crate::source::{FileId, Sources};

use super::block_view::Desk;
use super::blocks::Uses;
use super::finding_view::{self, Found};
use super::page::{CardLink, FindingView, PageView, SiteView};
use super::paths::{Places, root_of};
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
    let uses = Uses::of(notebook, &places);
    let found = Found::of(findings, &places, sources);
    let left_out = super::cards::left_out(notebook, facts, findings);
    let desk = Desk {
        clocks: clocks::paths(notebook, facts, findings, |id| places.is_open(id), is_taken),
        notebook,
        facts,
        findings,
        sources,
        found,
        uses,
        cards: cards
            .iter()
            .map(|card| (card.id.clone(), card.href.clone()))
            .collect(),
        style: notebook.settings.style,
        left_out,
        missing: findings
            .iter()
            .filter(|finding| finding.rule == slug::PICTURE_MISSING)
            .map(|finding| finding.span)
            .collect(),
        places,
    };
    let (pages, shown): (Vec<_>, Vec<_>) = desk
        .places
        .order()
        .par_iter()
        .filter_map(|&at| page(&desk, at, &has_body))
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
        title: settings
            .title
            .get()
            .map_or_else(|| "Notebook".to_owned(), |title| title.value.clone()),
        by: settings.by.get().map(|by| by.value.clone()),
        language: settings
            .language
            .get()
            .map_or_else(|| LANGUAGE.to_owned(), |language| language.value.clone()),
        clocks: clocks::pages(&desk),
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
        summary: desk.found.summary(),
        pictures: pictures::needs(shown.into_iter().flatten().collect()),
        version: version.to_owned(),
        cards,
    };
    (view, bodies_at)
}

fn page<'a>(
    desk: &Desk<'a>,
    at: usize,
    has_body: &(dyn Fn(FileId) -> bool + Sync),
) -> Option<(PageView<'a>, BTreeSet<String>)> {
    let head = desk.notebook.pages.get(at)?;
    let text = desk.notebook.texts.get(at)?;
    let blocks = desk.notebook.blocks_on(head.file);
    let path = desk.places.site_path(head.file)?.to_owned();
    let (body, scaling) = if has_body(head.file) {
        let scaling = scaling::of_page(desk.notebook, &scaled(desk, blocks));
        (prose::body(desk, head, text, blocks), scaling)
    } else {
        Default::default()
    };
    let view = PageView {
        root: root_of(&path).to_owned(),
        path,
        title: head.title.clone(),
        date: head.date.get().map(|date| date.value.written.clone()),
        day: head
            .date
            .get()
            .map(|date| date.value.at.strftime("%Y-%m-%d").to_string()),
        moment: head.date.get().map(|date| date.value.instant().to_string()),
        tags: head.tags.iter().map(|tag| tag.value.clone()).collect(),
        body: body.pieces,
        findings: finding_views(desk, head.file, blocks),
        scaling,
    };
    Some((view, body.pictures))
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
            finding_view::view(finding, desk.notebook, &desk.places, desk.sources, href)
        })
        .collect()
}
