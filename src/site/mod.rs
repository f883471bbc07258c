//! The site: static pages that work from a folder without a server, and without asking any other host for anything. Clocks
//! run by a script of the site; without it they still read as timetables.
//!
//! One page is one rendering of one template. [`prose`] turns a page's Markdown into stretches of HTML between which the
//! template sets facts and blocks; where an author wrote HTML of their own, [`sanitise`] reads the whole run as one document.

mod assets;
mod clock;
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

/// Renders every page, the clocks, then the list of pages, the findings, the facts, the style sheet and the fonts, in that order.
///
/// The same site gives the same bytes. Pages are rendered side by side; where several fail, the fault of the first page is
/// returned.
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
    for page in &site.clocks {
        files.push(clock::render(page, &common, templates)?);
    }
    files.extend(sheets::render(site, &names, &common, &plan, templates)?);
    files.extend(assets::files(templates));
    Ok(files)
}
