//! What only a server needs: the page for addresses that lead nowhere, and the map of the site.

use super::context::Context;
use super::names::Names;
use super::{SiteFault, SiteFile, Templates};
use crate::views::markup::xml;
use crate::views::page::SiteView;
use crate::views::paths::encode;

/// The most addresses that one map of a site may hold: the Sitemaps XML format 0.9, sitemaps.org.
const MOST: usize = 50_000;

/// The page that a server shows for an address that leads nowhere. It is shown at any depth, so that its own links are
/// whole addresses where the notebook gives one, and else lead from the top.
pub(super) fn not_found(
    site: &SiteView<'_>,
    names: &Names,
    common: &Context,
    templates: &Templates,
) -> Result<SiteFile, SiteFault> {
    let mut context = common.clone();
    context.insert("here", "not-found");
    context.insert("root", site.base.as_deref().unwrap_or(""));
    let html = templates.render("site/not-found.html", &context)?;
    Ok(SiteFile::text(names.not_found.clone(), html))
}

/// The map of the site, where it has an address: the pages, each with its day.
pub(super) fn map(site: &SiteView<'_>, base: &str) -> SiteFile {
    let mut out = String::from(
        "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<urlset xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n",
    );
    for page in site.pages.iter().take(MOST) {
        let day = page
            .day
            .as_ref()
            .map_or_else(String::new, |day| format!("<lastmod>{}</lastmod>", xml(day)));
        out.push_str(&format!(
            "<url><loc>{}{}</loc>{day}</url>\n",
            xml(base),
            xml(&encode(&page.path))
        ));
    }
    out.push_str("</urlset>\n");
    SiteFile::text("sitemap.xml".to_owned(), out)
}
