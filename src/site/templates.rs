//! The templates of the site: those in the program, and what the notebook puts in their place.

use std::borrow::Cow;
use std::collections::BTreeMap;

use tera::{Context, Tera};

use super::fault::SiteFault;
use super::filters;

const EMBEDDED: [(&str, &str); 22] = [
    ("site/base.html", include_str!("../../templates/site/base.html")),
    ("site/page.html", include_str!("../../templates/site/page.html")),
    ("site/block.html", include_str!("../../templates/site/block.html")),
    ("site/value.html", include_str!("../../templates/site/value.html")),
    ("site/slip.html", include_str!("../../templates/site/slip.html")),
    (
        "site/finding.html",
        include_str!("../../templates/site/finding.html"),
    ),
    ("site/pages.html", include_str!("../../templates/site/pages.html")),
    (
        "site/findings.html",
        include_str!("../../templates/site/findings.html"),
    ),
    ("site/turns.html", include_str!("../../templates/site/turns.html")),
    (
        "site/fact-table.html",
        include_str!("../../templates/site/fact-table.html"),
    ),
    ("site/facts.html", include_str!("../../templates/site/facts.html")),
    ("site/clock.html", include_str!("../../templates/site/clock.html")),
    (
        "site/contact.html",
        include_str!("../../templates/site/contact.html"),
    ),
    (
        "site/journal.html",
        include_str!("../../templates/site/journal.html"),
    ),
    (
        "site/metadata.html",
        include_str!("../../templates/site/metadata.html"),
    ),
    (
        "site/not-found.html",
        include_str!("../../templates/site/not-found.html"),
    ),
    ("site/tag.html", include_str!("../../templates/site/tag.html")),
    ("site/tags.html", include_str!("../../templates/site/tags.html")),
    ("site/named.html", include_str!("../../templates/site/named.html")),
    ("site/find.html", include_str!("../../templates/site/find.html")),
    (
        "site/search.html",
        include_str!("../../templates/site/search.html"),
    ),
    (
        "site/not-kept.html",
        include_str!("../../templates/site/not-kept.html"),
    ),
];

const STYLES: [(&str, &str); 2] = [
    ("site/style.css", include_str!("../../templates/site/style.css")),
    ("site/clock.css", include_str!("../../templates/site/clock.css")),
];

/// The compiled templates and the style sheets.
#[derive(Debug)]
pub struct Templates {
    tera: Tera,
    styles: Vec<(&'static str, Cow<'static, str>)>,
}

impl Templates {
    /// Compiles the templates once. `overrides` maps a path under `templates`, such as `site/page.html` or
    /// `site/style.css`, to the text that stands in its place. Further `site/*.html` may be given for those to include;
    /// other paths belong to other renderers and are left alone.
    pub fn new(overrides: &BTreeMap<String, String>) -> Result<Self, SiteFault> {
        let mut texts: BTreeMap<&str, &str> = EMBEDDED.into_iter().collect();
        let ours = |path: &str| {
            path.strip_prefix("site/")
                .and_then(|name| name.strip_suffix(".html"))
                .is_some()
        };
        texts.extend(
            overrides
                .iter()
                .filter(|(path, _)| ours(path))
                .map(|(path, text)| (path.as_str(), text.as_str())),
        );

        let mut tera = Tera::new();
        filters::register(&mut tera);
        tera.add_raw_templates(texts)
            .map_err(|error| SiteFault::from_tera(&error, "site"))?;
        let styles = STYLES.into_iter().map(|(path, text)| {
            let own = overrides.get(path).map(|own| Cow::Owned(own.clone()));
            (path, own.unwrap_or(Cow::Borrowed(text)))
        });
        let styles = styles.collect();
        Ok(Self { tera, styles })
    }

    pub(super) fn render(&self, name: &str, context: &Context) -> Result<String, SiteFault> {
        self.tera
            .render(name, context)
            .map_err(|error| SiteFault::from_tera(&error, name))
    }

    /// Style sheets by their path under `templates`.
    pub(super) fn styles(&self) -> impl Iterator<Item = (&'static str, Cow<'static, str>)> + '_ {
        self.styles.iter().cloned()
    }
}
