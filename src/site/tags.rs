//! The pages of each tag, and the list of tags.

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;
use serde::Serialize;

use super::context::Context;
use super::names::Names;
use super::{SiteFault, SiteFile, Templates};
use crate::syntax::slug;
use crate::views::file_name::{alike, safe};
use crate::views::page::{PageView, SiteView};

/// The tags of a site, and where the pages of each are listed. Tags that differ in case alone are one.
#[derive(Debug, Default)]
pub(super) struct Tags {
    /// By what they have in common.
    tags: BTreeMap<String, Tag>,
}

#[derive(Debug)]
struct Tag {
    /// As it was first written.
    title: String,
    path: String,
    /// Its pages, as places in reading order.
    pages: Vec<usize>,
}

/// A tag as templates know it.
#[derive(Debug, Hash, Serialize)]
pub(super) struct TagLink<'t> {
    title: &'t str,
    path: &'t str,
}

impl Tags {
    pub(super) fn of(site: &SiteView<'_>, names: &Names) -> Self {
        let mut tags = Self::default();
        let mut taken = BTreeSet::new();
        for (at, page) in site.pages.iter().enumerate() {
            for written in page.tags.iter().filter(|tag| !tag.trim().is_empty()) {
                let tag = tags.tags.entry(alike(written.trim())).or_insert_with(|| {
                    let stem = match slug(written) {
                        words if words.is_empty() => "tag".to_owned(),
                        words => safe(&words),
                    };
                    let mut path = format!("{}/{stem}.html", names.tag_folder);
                    let mut number = 1;
                    while !taken.insert(alike(&path)) {
                        number += 1;
                        path = format!("{}/{stem}-{number}.html", names.tag_folder);
                    }
                    Tag {
                        title: written.trim().to_owned(),
                        path,
                        pages: Vec::new(),
                    }
                });
                if tag.pages.last() != Some(&at) {
                    tag.pages.push(at);
                }
            }
        }
        tags
    }

    /// The tags of a page, each with its place.
    pub(super) fn links<'t>(&'t self, page: &'t PageView<'_>) -> Vec<TagLink<'t>> {
        page.tags
            .iter()
            .filter_map(|written| {
                let tag = self.tags.get(&alike(written.trim()))?;
                Some(TagLink {
                    title: written,
                    path: &tag.path,
                })
            })
            .collect()
    }
}

#[derive(Debug, Serialize)]
struct Entry<'s> {
    path: &'s str,
    title: &'s str,
    day: Option<&'s str>,
}

/// Renders the list of tags and a page for each; none where no page has a tag.
pub(super) fn render(
    site: &SiteView<'_>,
    tags: &Tags,
    names: &Names,
    common: &Context,
    templates: &Templates,
) -> Result<Vec<SiteFile>, SiteFault> {
    #[derive(Serialize)]
    struct Listed<'s> {
        title: &'s str,
        path: &'s str,
        count: usize,
    }
    if tags.tags.is_empty() {
        return Ok(Vec::new());
    }
    let listed: Vec<Listed<'_>> = tags
        .tags
        .values()
        .map(|tag| Listed {
            title: &tag.title,
            path: &tag.path,
            count: tag.pages.len(),
        })
        .collect();
    let mut context = common.clone();
    context.insert("here", "tags");
    context.insert("tags", &listed);
    let list = SiteFile::text(names.tags.clone(), templates.render("site/tags.html", &context)?);
    let pages: Vec<Result<SiteFile, SiteFault>> = tags
        .tags
        .values()
        .collect::<Vec<_>>()
        .par_iter()
        .map(|tag| one(site, tag, common, templates))
        .collect();
    let mut files = vec![list];
    for page in pages {
        files.push(page?);
    }
    files.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(files)
}

fn one(
    site: &SiteView<'_>,
    tag: &Tag,
    common: &Context,
    templates: &Templates,
) -> Result<SiteFile, SiteFault> {
    let mut pages: Vec<&PageView<'_>> = tag.pages.iter().filter_map(|&at| site.pages.get(at)).collect();
    // The newest first, those without a date after them, in reading order.
    pages.sort_by(|a, b| b.moment.cmp(&a.moment));
    let entries: Vec<Entry<'_>> = pages
        .into_iter()
        .map(|page| Entry {
            path: &page.path,
            title: &page.title,
            day: page.day.as_deref(),
        })
        .collect();
    let mut context = common.clone();
    context.insert("here", "tag");
    context.insert("root", "../");
    context.insert("tag", &tag.title);
    context.insert("entries", &entries);
    let html = templates.render("site/tag.html", &context)?;
    Ok(SiteFile::text(tag.path.clone(), html))
}
