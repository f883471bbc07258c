//! The dated pages, newest first: as a list, and as a feed where the site has an address.

use std::sync::Arc;

use serde::Serialize;

use super::context::Context;
use super::names::Names;
use super::page::{Made, Turn};
use super::{SiteFault, SiteFile, Templates};
use crate::views::markup::xml;
use crate::views::page::{PageView, SiteView};
use crate::views::paths::encode;

/// How many entries a file holds before the next begin a new one.
const ENTRIES: usize = 500;

/// How many entries the feed tells of.
const NEWS: usize = 40;

/// A page with a date, and what was made of it.
type Dated<'s> = (&'s PageView<'s>, &'s Arc<Made>);

#[derive(Debug, Serialize)]
struct Entry<'s> {
    path: &'s str,
    title: &'s str,
    day: &'s str,
    tags: &'s [String],
    summary: &'s str,
}

/// The dated pages, oldest first.
fn dated<'s>(site: &'s SiteView<'s>, made: &'s [Arc<Made>]) -> Vec<Dated<'s>> {
    let mut dated: Vec<Dated<'s>> = site
        .pages
        .iter()
        .zip(made)
        .filter(|(page, _)| page.moment.is_some())
        .collect();
    // Later in reading order counts as later of one moment.
    dated.sort_by_key(|(page, _)| page.moment.as_deref());
    dated
}

/// Renders the journal, and the feed. Where no page has a date there is neither.
pub(super) fn render(
    site: &SiteView<'_>,
    made: &[Arc<Made>],
    names: &Names,
    common: &Context,
    templates: &Templates,
) -> Result<Vec<SiteFile>, SiteFault> {
    let dated = dated(site, made);
    let parts: Vec<&[Dated<'_>]> = dated.chunks(ENTRIES).collect();
    let paths = names.ending(&names.journal, parts.len());
    let mut files = Vec::new();
    for (at, (part, path)) in parts.iter().zip(&paths).enumerate() {
        let turn = |at: Option<usize>, title: &'static str| {
            Some(Turn {
                path: paths.get(at?)?,
                title,
            })
        };
        let entries: Vec<Entry<'_>> = part
            .iter()
            .rev()
            .map(|(page, made)| Entry {
                path: &page.path,
                title: &page.title,
                day: page.day.as_deref().unwrap_or(""),
                tags: &page.tags,
                summary: &made.summary,
            })
            .collect();
        let mut context = common.clone();
        context.insert("here", "journal");
        context.insert("entries", &entries);
        context.insert("before", &turn(Some(at + 1), site.words.site.list.later_entries));
        context.insert(
            "after",
            &turn(at.checked_sub(1), site.words.site.list.earlier_entries),
        );
        let html = templates.render("site/journal.html", &context)?;
        files.push(SiteFile::text(path.clone(), html));
    }
    if let Some(base) = &site.base
        && !dated.is_empty()
    {
        files.push(SiteFile::text(
            names.feed.clone(),
            feed(site, names, base, &dated),
        ));
    }
    Ok(files)
}

/// The feed: The Atom Syndication Format, IETF RFC 4287. Its dates are those of the notebook, and each page's address is
/// its id.
fn feed(site: &SiteView<'_>, names: &Names, base: &str, dated: &[Dated<'_>]) -> String {
    let base = xml(base);
    let author = site.by.as_deref().unwrap_or(&site.title);
    let latest = dated.last().and_then(|(page, _)| page.stamp.as_deref());
    let mut out = format!(
        "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n\
        <feed xmlns=\"http://www.w3.org/2005/Atom\" xml:lang=\"{}\">\n\
        <title>{}</title>\n<id>{base}</id>\n<updated>{}</updated>\n\
        <author><name>{}</name></author>\n\
        <generator version=\"{}\">trayside</generator>\n\
        <link rel=\"self\" type=\"application/atom+xml\" href=\"{base}{}\"/>\n\
        <link rel=\"alternate\" type=\"text/html\" href=\"{base}{}\"/>\n",
        xml(&site.language),
        xml(&site.title),
        xml(latest.unwrap_or("")),
        xml(author),
        xml(&site.version),
        xml(&encode(&names.feed)),
        xml(&encode(&names.journal)),
    );
    for (page, made) in dated.iter().rev().take(NEWS) {
        let address = format!("{base}{}", xml(&encode(&page.path)));
        let moment = xml(page.stamp.as_deref().unwrap_or(""));
        out.push_str(&format!(
            "<entry>\n<title>{}</title>\n<id>{address}</id>\n<updated>{moment}</updated>\n\
            <published>{moment}</published>\n<link rel=\"alternate\" type=\"text/html\" href=\"{address}\"/>\n",
            xml(&page.title),
        ));
        for tag in &page.tags {
            out.push_str(&format!("<category term=\"{}\"/>\n", xml(tag)));
        }
        if !made.summary.is_empty() {
            out.push_str(&format!("<summary>{}</summary>\n", xml(&made.summary)));
        }
        out.push_str("</entry>\n");
    }
    out.push_str("</feed>\n");
    out
}
