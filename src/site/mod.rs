//! The site: static pages that work from a folder without a server, without script, and without asking any other host for
//! anything.
//!
//! One page is one rendering of one template. [`prose`] turns a page's Markdown into stretches of HTML between which the
//! template sets facts and blocks; where an author wrote HTML of their own, [`sanitise`] reads the whole run as one document.

mod assets;
mod context;
mod fault;
mod filters;
mod headings;
mod links;
mod names;
pub mod offline;
mod page;
pub mod pictures;
mod prose;
mod sanitise;
mod sheets;
mod slots;
mod templates;
mod walk;

use rayon::prelude::*;

use crate::host::Bytes;
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
    pub bytes: Bytes,
}

impl SiteFile {
    fn of(path: impl Into<String>, bytes: impl Into<Bytes>) -> Self {
        Self {
            path: path.into(),
            bytes: bytes.into(),
        }
    }
}

/// Renders every page, then the list of pages, the findings, the facts, the style sheet and the fonts, in that order.
///
/// The same site gives the same bytes. Pages are rendered side by side; where several fail, the fault of the first page is
/// returned. Templates that are used again render only what they have not rendered before.
pub fn render(site: &SiteView<'_>, templates: &Templates) -> Result<Vec<SiteFile>, SiteFault> {
    let names = Names::of(site);
    let common = page::common(site, &names);
    let plan = sheets::Plan::of(site, &names);
    let rendered: Vec<Result<SiteFile, SiteFault>> = site
        .pages
        .par_iter()
        .enumerate()
        .map(|(at, page)| page::render(site, at, page, &common, &plan, templates))
        .collect();
    let mut files = rendered.into_iter().collect::<Result<Vec<_>, _>>()?;
    files.extend(sheets::render(site, &names, &common, &plan, templates)?);
    files.extend(assets::files(templates));
    Ok(files)
}

/// Renders the pages at some places alone. Of the others only what stands above their bodies is looked at.
pub fn render_pages(
    site: &SiteView<'_>,
    pages: &[usize],
    templates: &Templates,
) -> Result<Vec<SiteFile>, SiteFault> {
    let names = Names::of(site);
    let common = page::common(site, &names);
    let plan = sheets::Plan::of(site, &names);
    let pages = pages.iter().filter_map(|at| Some((*at, site.pages.get(*at)?)));
    pages
        .map(|(at, page)| page::render(site, at, page, &common, &plan, templates))
        .collect()
}
