//! The pages that no one wrote: the list of pages, all findings, all facts, the search, and the word on a page that is not
//! kept. Long ones run over several files.

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;
use serde::Serialize;

use super::context::{Context, Digest};
use super::names::Names;
use super::page::{Turn, place, tally};
use super::{SiteFault, SiteFile, Templates, offline};
use crate::views::page::{FactView, FindingView, Piece, SiteView};
use crate::views::paths::encode;

/// How many rows a file holds before the next page's rows begin a new one: about 300 kB.
const ROWS: usize = 1500;

/// Which page's findings and facts stand in which file.
#[derive(Debug)]
pub(super) struct Plan {
    findings: Vec<Option<String>>,
    findings_files: Vec<String>,
    facts_files: Vec<String>,
    findings_sheets: Vec<Vec<usize>>,
    facts_sheets: Vec<Vec<usize>>,
}

impl Plan {
    pub(super) fn of(site: &SiteView<'_>, names: &Names) -> Self {
        let findings_sheets = fill(site.pages.iter().map(|page| page.findings.len()));
        let facts_sheets = fill(site.pages.iter().map(|page| {
            let rows = |piece: &Piece<'_>| match piece {
                Piece::Block(block) => block.facts.len(),
                Piece::Fact(_) => 1,
                Piece::Markdown(_) => 0,
            };
            page.body.iter().map(rows).sum()
        }));
        let findings_files = names.run(&names.findings, findings_sheets.len());
        let facts_files = names.run(&names.facts, facts_sheets.len());
        let mut findings = vec![None; site.pages.len()];
        for (pages, file) in findings_sheets.iter().zip(&findings_files) {
            for &page in pages {
                if let Some(slot) = findings.get_mut(page) {
                    *slot = Some(format!("{}#page-{}", encode(file), page + 1));
                }
            }
        }
        Self {
            findings,
            findings_files,
            facts_files,
            findings_sheets,
            facts_sheets,
        }
    }

    /// Where the findings of a page stand, as an address from the site's root.
    pub(super) fn findings_of(&self, page: usize) -> Option<&str> {
        self.findings.get(page)?.as_deref()
    }
}

/// Pages that have rows, in files of about [`ROWS`] rows; at least one file.
fn fill(rows: impl Iterator<Item = usize>) -> Vec<Vec<usize>> {
    let mut sheets = vec![Vec::new()];
    let mut full = 0;
    for (page, rows) in rows.enumerate().filter(|&(_, rows)| rows > 0) {
        if full > 0 && full + rows > ROWS {
            sheets.push(Vec::new());
            full = 0;
        }
        full += rows;
        if let Some(sheet) = sheets.last_mut() {
            sheet.push(page);
        }
    }
    sheets
}

/// Renders all of them.
pub(super) fn render(
    site: &SiteView<'_>,
    names: &Names,
    common: &Context,
    plan: &Plan,
    templates: &Templates,
) -> Result<Vec<SiteFile>, SiteFault> {
    let mut files = vec![pages(site, names, common, plan, templates)?];
    files.extend(findings(site, common, plan, templates)?);
    files.extend(facts(site, common, plan, templates)?);
    let mut context = common.clone();
    context.insert("here", "search");
    let search = templates.render("site/search.html", &context)?;
    files.push(SiteFile::text(names.search.clone(), search));
    files.push(not_kept(names, common, templates)?);
    Ok(files)
}

fn not_kept(names: &Names, common: &Context, templates: &Templates) -> Result<SiteFile, SiteFault> {
    let mut context = common.clone();
    context.insert("here", "not-kept");
    context.insert("megabytes", &(offline::AT_FIRST / 1_000_000));
    Ok(SiteFile::text(
        names.not_kept.clone(),
        templates.render("site/not-kept.html", &context)?,
    ))
}

fn pages(
    site: &SiteView<'_>,
    names: &Names,
    common: &Context,
    plan: &Plan,
    templates: &Templates,
) -> Result<SiteFile, SiteFault> {
    #[derive(Serialize)]
    struct Entry<'s> {
        path: &'s str,
        title: &'s str,
        date: Option<&'s str>,
        tags: &'s [String],
        tally: String,
        tally_href: Option<&'s str>,
    }
    let entries: Vec<Entry<'_>> = site
        .pages
        .iter()
        .enumerate()
        .map(|(at, page)| Entry {
            path: &page.path,
            title: &page.title,
            date: page.date.as_deref(),
            tags: &page.tags,
            tally: tally(&page.findings),
            tally_href: plan.findings_of(at),
        })
        .collect();
    let mut context = common.clone();
    context.insert("here", "pages");
    context.insert("found", &site.summary);
    context.insert("pages", &entries);
    context.insert("cards", &site.cards);
    Ok(SiteFile::text(
        names.list.clone(),
        templates.render("site/pages.html", &context)?,
    ))
}

fn findings(
    site: &SiteView<'_>,
    common: &Context,
    plan: &Plan,
    templates: &Templates,
) -> Result<Vec<SiteFile>, SiteFault> {
    #[derive(Serialize)]
    struct Group<'s> {
        id: usize,
        path: &'s str,
        title: &'s str,
        findings: &'s [FindingView],
    }
    let on_pages: BTreeSet<_> = site
        .pages
        .iter()
        .flat_map(|page| &page.findings)
        .map(place)
        .collect();
    let elsewhere: Vec<&FindingView> = site
        .findings
        .iter()
        .filter(|finding| !on_pages.contains(&place(finding)))
        .collect();
    let mut files = Vec::new();
    for (at, (pages, file)) in plan.findings_sheets.iter().zip(&plan.findings_files).enumerate() {
        let groups: Vec<Group<'_>> = pages
            .iter()
            .filter_map(|&page| {
                let view = site.pages.get(page)?;
                Some(Group {
                    id: page + 1,
                    path: &view.path,
                    title: &view.title,
                    findings: &view.findings,
                })
            })
            .collect();
        let mut context = common.clone();
        context.insert("here", "findings");
        context.insert("found", &site.summary);
        context.insert("groups", &groups);
        // Those of the notebook as a whole come first.
        context.insert("elsewhere", if at == 0 { elsewhere.as_slice() } else { &[] });
        let (before, after) = turns(&plan.findings_files, at);
        context.insert("before", &before);
        context.insert("after", &after);
        files.push(SiteFile::text(
            file.clone(),
            templates.render("site/findings.html", &context)?,
        ));
    }
    Ok(files)
}

fn facts(
    site: &SiteView<'_>,
    common: &Context,
    plan: &Plan,
    templates: &Templates,
) -> Result<Vec<SiteFile>, SiteFault> {
    #[derive(Hash, Serialize)]
    struct Owner<'s> {
        id: &'s str,
        title: &'s str,
        facts: Vec<&'s FactView>,
    }
    #[derive(Hash, Serialize)]
    struct Group<'s> {
        path: &'s str,
        title: &'s str,
        owners: Vec<Owner<'s>>,
        others: Vec<&'s FactView>,
    }
    let others = told_by_prose(site);
    let group = |&at: &usize| {
        let page = site.pages.get(at)?;
        let blocks = page.body.iter().filter_map(|piece| match piece {
            Piece::Block(block) if !block.facts.is_empty() => Some(Owner {
                id: &block.id,
                title: &block.title,
                facts: block.facts.iter().collect(),
            }),
            _ => None,
        });
        let group = Group {
            path: &page.path,
            title: &page.title,
            owners: blocks.collect(),
            others: others.get(&at).cloned().unwrap_or_default(),
        };
        (!group.owners.is_empty() || !group.others.is_empty()).then_some(group)
    };
    let one = |(at, (pages, file)): (usize, (&Vec<usize>, &String))| {
        let groups: Vec<Group<'_>> = pages.iter().filter_map(group).collect();
        let digest = Digest::of(&(common.digest(), &groups, &plan.facts_files, at));
        let html = templates.unless_kept("site/facts.html", digest, || {
            let mut values = common.values();
            values.insert("here", "facts");
            values.insert("groups", &groups);
            let (before, after) = turns(&plan.facts_files, at);
            values.insert("before", &before);
            values.insert("after", &after);
            values
        })?;
        Ok(SiteFile::text(file.clone(), html))
    };
    let sheets = plan.facts_sheets.par_iter().zip(&plan.facts_files).enumerate();
    let files: Vec<Result<SiteFile, SiteFault>> = sheets.map(one).collect();
    files.into_iter().collect()
}

/// The facts that prose mentions and that stand with no block: each where it is mentioned first, by the place of its page.
fn told_by_prose<'s>(site: &'s SiteView<'_>) -> BTreeMap<usize, Vec<&'s FactView>> {
    let of_blocks = told_by_blocks(site);
    let mut told = BTreeMap::new();
    let mut shown = BTreeSet::new();
    for (at, page) in site.pages.iter().enumerate() {
        for piece in &page.body {
            if let Piece::Fact(fact) = piece
                && !of_blocks.contains(fact.id.as_str())
                && shown.insert(fact.id.as_str())
            {
                told.entry(at).or_insert_with(Vec::new).push(fact);
            }
        }
    }
    told
}

/// Of the facts that prose mentions, those that stand with their block.
fn told_by_blocks<'s>(site: &'s SiteView<'_>) -> BTreeSet<&'s str> {
    let pieces = || site.pages.iter().flat_map(|page| &page.body);
    let mentioned: BTreeSet<&str> = pieces()
        .filter_map(|piece| match piece {
            Piece::Fact(fact) => Some(fact.id.as_str()),
            _ => None,
        })
        .collect();
    let owners: BTreeSet<&str> = mentioned
        .iter()
        .filter_map(|id| Some(id.split_once('.')?.0))
        .collect();
    let blocks = pieces().filter_map(|piece| match piece {
        Piece::Block(block) if owners.contains(block.id.as_str()) => Some(&block.facts),
        _ => None,
    });
    let told = blocks.flatten().map(|fact| fact.id.as_str());
    told.filter(|id| mentioned.contains(id)).collect()
}

/// Links to the file before and the one after.
fn turns(files: &[String], at: usize) -> (Option<Turn<'_>>, Option<Turn<'_>>) {
    let turn = |at: Option<usize>, title: &'static str| {
        Some(Turn {
            path: files.get(at?)?,
            title,
        })
    };
    (
        turn(at.checked_sub(1), "earlier pages"),
        turn(Some(at + 1), "later pages"),
    )
}
