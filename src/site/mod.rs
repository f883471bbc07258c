//! The site: static pages that work from a folder without a server, and without asking any other host for anything. Clocks
//! run by a script of the site; without it they still read as timetables.
//!
//! One page is one rendering of one template. [`prose`] turns a page's Markdown into stretches of HTML between which the
//! template sets facts and blocks; where an author wrote HTML of their own, [`sanitise`] reads the whole run as one document.

mod assets;
mod clock;
mod contact;
mod context;
mod fault;
mod filters;
mod headings;
mod journal;
mod lasting;
mod links;
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

use std::sync::Arc;

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

/// Bytes, or text that becomes some.
struct Written(Bytes);

impl From<Bytes> for Written {
    fn from(bytes: Bytes) -> Self {
        Self(bytes)
    }
}

impl From<String> for Written {
    fn from(text: String) -> Self {
        Self(text.into_bytes().into())
    }
}

impl SiteFile {
    fn text(path: String, text: impl Into<Written>) -> Self {
        Self {
            path,
            bytes: text.into().0,
        }
    }
}

/// What of a site is kept from one time to the next, beside what its templates have rendered.
#[derive(Debug, Default)]
pub struct Kept {
    search: search::Kept,
    /// What its files were hashed to.
    pub hashes: offline::Hashes,
}

/// Renders pages that no one wrote.
type Others<'s> = dyn Fn() -> Result<Vec<SiteFile>, SiteFault> + Sync + 's;

/// Renders every page, the clocks, then the pages that no one wrote, in that order.
///
/// The same site gives the same bytes. Pages are rendered side by side; where several fail, the fault of the first page is
/// returned. Templates that are used again render only what they have not rendered before.
pub fn render(site: &SiteView<'_>, templates: &Templates) -> Result<Vec<SiteFile>, SiteFault> {
    render_after(site, templates, &mut Kept::default())
}

/// As [`render`] does, with what was kept from the last time.
pub fn render_after(
    site: &SiteView<'_>,
    templates: &Templates,
    kept: &mut Kept,
) -> Result<Vec<SiteFile>, SiteFault> {
    let names = Names::of(site);
    let common = page::common(site, &names);
    let around = page::Around::of(site, &names);
    let rendered: Vec<Result<(SiteFile, Arc<page::Made>), SiteFault>> = site
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
    let found: Vec<_> = paths.zip(&made).collect();
    let mut common = common;
    common.insert("root", "");
    let others: [&Others<'_>; 5] = [
        &|| sheets::render(site, &names, &common, &around.plan, templates),
        &|| contact::render(site, &names, &common, templates),
        &|| journal::render(site, &made, &names, &common, templates),
        &|| tags::render(site, &around.tags, &names, &common, templates),
        &|| Ok(lasting::render(site, &around.lasting)),
    ];
    let (of_search, others): (_, Vec<_>) = rayon::join(
        || search::files(&found, &mut kept.search),
        || others.into_par_iter().map(|render| render()).collect(),
    );
    files.extend(of_search);
    for rendered in others {
        files.extend(rendered?);
    }
    files.push(served::not_found(site, &names, &common, templates)?);
    files.extend(site.base.as_ref().map(|base| served::map(site, base)));
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
    let around = page::Around::of(site, &names);
    let pages = pages.iter().filter_map(|at| Some((*at, site.pages.get(*at)?)));
    let rendered = pages.map(|(at, page)| page::render(site, at, page, &common, &around, templates));
    rendered.map(|rendered| Ok(rendered?.0)).collect()
}
