//! The site: static pages that work from a folder without a server, and without asking any other host for anything. Clocks
//! run by a script of the site; without it they still read as timetables.
//!
//! One page is one rendering of one template. [`prose`] turns a page's Markdown into stretches of HTML between which the
//! template sets facts and blocks; where an author wrote HTML of their own, [`sanitise`] reads the whole run as one document.

mod assets;
mod clock;
mod contact;
mod fault;
mod filters;
mod headings;
mod journal;
mod lasting;
mod links;
mod markup;
mod names;
pub mod offline;
mod page;
pub mod pictures;
mod prose;
mod sanitise;
mod script;
mod search;
mod served;
mod sheets;
mod slots;
mod summary;
mod tags;
mod templates;
mod walk;

use std::borrow::Cow;

use rayon::prelude::*;

use crate::views::page::SiteView;

pub use fault::SiteFault;
pub use names::Names;
pub use templates::Templates;

/// A file of the site.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SiteFile {
    /// Path from the site's root, with forward slashes.
    pub path: String,
    /// What stands in it.
    pub bytes: Cow<'static, [u8]>,
}

impl SiteFile {
    fn text(path: String, text: String) -> Self {
        Self {
            path,
            bytes: Cow::Owned(text.into_bytes()),
        }
    }
}

/// Renders every page, the clocks, then the pages that no one wrote, in that order.
///
/// The same site gives the same bytes. Pages are rendered side by side; where several fail, the fault of the first page is
/// returned.
pub fn render(site: &SiteView<'_>, templates: &Templates) -> Result<Vec<SiteFile>, SiteFault> {
    let names = Names::of(site);
    let common = page::common(site, &names);
    let around = page::Around {
        plan: sheets::Plan::of(site, &names),
        tags: tags::Tags::of(site, &names),
        lasting: lasting::Lasting::of(site, &names),
    };
    let rendered: Vec<Result<(SiteFile, page::Made), SiteFault>> = site
        .pages
        .par_iter()
        .enumerate()
        .map(|(at, page)| page::render(site, at, page, &common, &around, templates))
        .collect();
    let (mut files, made): (Vec<_>, Vec<_>) = rendered
        .into_iter()
        .collect::<Result<Vec<_>, _>>()?
        .into_iter()
        .unzip();
    for page in &site.clocks {
        files.push(clock::render(page, &common, templates)?);
    }
    let paths = site.pages.iter().map(|page| page.path.as_str());
    let found: Vec<(&str, &search::PageIndex)> = paths.zip(made.iter().map(|made| &made.index)).collect();
    files.extend(search::files(&found));
    files.extend(sheets::render(site, &names, &common, &around.plan, templates)?);
    let mut common = common;
    common.insert("root", "");
    files.extend(contact::render(site, &names, &common, templates)?);
    files.extend(journal::render(site, &made, &names, &common, templates)?);
    files.extend(tags::render(site, &around.tags, &names, &common, templates)?);
    files.extend(lasting::render(site, &around.lasting));
    files.push(served::not_found(site, &names, &common, templates)?);
    files.extend(site.base.as_ref().map(|base| served::map(site, base)));
    files.extend(assets::files(templates));
    Ok(files)
}
