//! Addresses that last: a small page for each block by its id, which leads to wherever the block stands now.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::SiteFile;
use super::filters::linked;
use super::names::Names;
use super::page::ours;
use crate::source::ByName;
use crate::views::file_name::{alike, safe};
use crate::views::markup::xml;
use crate::views::page::{BlockView, PageView, Piece, SiteView};
use crate::views::paths::encode;

/// Where each block's lasting page stands, by the block's id.
#[derive(Debug)]
pub(super) struct Lasting<'s> {
    paths: ByName<&'s str, String>,
}

impl<'s> Lasting<'s> {
    pub(super) fn of(site: &'s SiteView<'_>, names: &Names) -> Self {
        let mut ids: Vec<&str> = site
            .pages
            .iter()
            .flat_map(blocks)
            .map(|block| block.id.as_str())
            .collect();
        ids.par_sort_unstable();
        ids.dedup();
        let mut taken: ByName<String, ()> = ByName::default();
        let mut paths = ByName::default();
        for id in ids {
            let stem = safe(id);
            let mut path = format!("{}/{stem}.html", names.at_folder);
            let mut number = 1;
            while taken.insert(alike(&path), ()).is_some() {
                number += 1;
                path = format!("{}/{stem}-{number}.html", names.at_folder);
            }
            paths.insert(id, path);
        }
        Self { paths }
    }

    /// The lasting pages of the blocks of one page, by id.
    pub(super) fn on<'p>(&'p self, page: &'p PageView<'_>) -> BTreeMap<&'p str, &'p str> {
        blocks(page)
            .filter_map(|block| Some((block.id.as_str(), self.paths.get(&block.id)?.as_str())))
            .collect()
    }
}

fn blocks<'p>(page: &'p PageView<'_>) -> impl Iterator<Item = &'p BlockView> {
    page.body.iter().filter_map(|piece| match piece {
        Piece::Block(block) if block.lasting => Some(&**block),
        _ => None,
    })
}

/// Writes them all.
pub(super) fn render(site: &SiteView<'_>, lasting: &Lasting<'_>) -> Vec<SiteFile> {
    let of_pages = site.pages.par_iter().flat_map_iter(|page| {
        blocks(page).filter_map(|block| {
            let path = lasting.paths.get(&block.id)?;
            Some(SiteFile::text(path.clone(), leads_to(site, page, block)))
        })
    });
    let mut files: Vec<SiteFile> = of_pages.collect();
    files.par_sort_by(|a, b| a.path.cmp(&b.path));
    files
}

/// A page that leads on by itself, and by a link where a browser is told not to. It is seen for a moment, so it is dressed in
/// the view that was chosen: in the red one, no white page flashes up.
fn leads_to(site: &SiteView<'_>, page: &PageView<'_>, block: &BlockView) -> String {
    let address = format!("../{}#{}", encode(&page.path), encode(&block.id));
    let there = linked(site.words.site.list.stands_on, &[&address]);
    let there = there.replacen("{}", &xml(&page.title), 1);
    let to = xml(&address);
    let title = xml(&block.title);
    let canonical = site.base.as_ref().map_or_else(String::new, |base| {
        format!(
            "<link rel=\"canonical\" href=\"{}{}\">\n",
            xml(base),
            xml(&encode(&page.path))
        )
    });
    format!(
        "<!doctype html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n\
        <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; \
        script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'\">\n\
        <meta http-equiv=\"refresh\" content=\"0; url={to}\">\n\
        <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
        <meta name=\"color-scheme\" content=\"light dark\">\n{canonical}<title>{title}</title>\n\
        <script src=\"../view.js\"></script>\n<link rel=\"stylesheet\" href=\"../style.css\">\n</head>\n\
        <body>\n<main>\n<h1>{title}</h1>\n<p{}>{there}</p>\n</main>\n</body>\n</html>\n",
        xml(&site.language),
        ours(site),
    )
}
