//! The templates of the site: those in the program, and what the notebook puts in their place.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tera::Tera;

use crate::host::Bytes;

use super::context::{Context, Digest};
use super::fault::SiteFault;
use super::filters;
use super::page::Made;

const EMBEDDED: [(&str, &str); 23] = [
    ("site/base.html", include_str!("../../templates/site/base.html")),
    ("site/page.html", include_str!("../../templates/site/page.html")),
    ("site/block.html", include_str!("../../templates/site/block.html")),
    ("site/scale.html", include_str!("../../templates/site/scale.html")),
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

/// The compiled templates and the style sheets, and what was rendered by them.
#[derive(Debug)]
pub struct Templates {
    tera: Tera,
    styles: Vec<(&'static str, Bytes)>,
    kept: Mutex<BTreeMap<(String, Digest), Kept>>,
    pages: Mutex<BTreeMap<Digest, KeptPage>>,
    rendered: AtomicUsize,
}

/// Something that was rendered.
#[derive(Debug)]
struct Kept {
    page: Bytes,
    used: bool,
}

/// A page of the notebook that was rendered, and what was read of it.
#[derive(Debug)]
struct KeptPage {
    page: Bytes,
    made: Arc<Made>,
    used: bool,
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
            let own = overrides.get(path).map_or(text, String::as_str);
            (path, own.as_bytes().into())
        });
        Ok(Self {
            tera,
            styles: styles.collect(),
            kept: Mutex::default(),
            pages: Mutex::default(),
            rendered: AtomicUsize::new(0),
        })
    }

    /// The page that a template makes of some values; one that it has made of the same values before is not made again.
    pub(super) fn render(&self, name: &str, context: &Context) -> Result<Bytes, SiteFault> {
        match context.digest() {
            Some(digest) => self.unless_kept(name, digest, || context.values()),
            None => self.anew(name, &context.values()),
        }
    }

    /// The page that a template made of what `digest` stands for; where it has made none, of what `values` gives.
    pub(super) fn unless_kept(
        &self,
        name: &str,
        digest: Digest,
        values: impl FnOnce() -> tera::Context,
    ) -> Result<Bytes, SiteFault> {
        let key = (name.to_owned(), digest);
        if let Some(kept) = lock(&self.kept).get_mut(&key) {
            kept.used = true;
            return Ok(Bytes::clone(&kept.page));
        }
        let page = self.anew(name, &values())?;
        let kept = Kept {
            page: Bytes::clone(&page),
            used: true,
        };
        lock(&self.kept).insert(key, kept);
        Ok(page)
    }

    fn anew(&self, name: &str, values: &tera::Context) -> Result<Bytes, SiteFault> {
        let page = self.tera.render(name, values);
        let page = page.map_err(|error| SiteFault::from_tera(&error, name))?;
        self.rendered.fetch_add(1, Ordering::Relaxed);
        Ok(Bytes::from(page.into_bytes()))
    }

    /// The page of the notebook that was made of the same before, and what was read of it.
    pub(super) fn made_of(&self, digest: Digest) -> Option<(Bytes, Arc<Made>)> {
        let mut pages = lock(&self.pages);
        let kept = pages.get_mut(&digest)?;
        kept.used = true;
        Some((Bytes::clone(&kept.page), Arc::clone(&kept.made)))
    }

    /// Renders a page of the notebook, and keeps it with what was read of it under what it was made of.
    pub(super) fn make(
        &self,
        name: &str,
        values: &tera::Context,
        digest: Digest,
        made: Made,
    ) -> Result<(Bytes, Arc<Made>), SiteFault> {
        let (page, made) = (self.anew(name, values)?, Arc::new(made));
        let kept = KeptPage {
            page: Bytes::clone(&page),
            made: Arc::clone(&made),
            used: true,
        };
        lock(&self.pages).insert(digest, kept);
        Ok((page, made))
    }

    /// How many pages were really rendered since this was last called. What no page was made of since then is let go.
    pub fn turn(&self) -> usize {
        lock(&self.kept).retain(|_, kept| std::mem::replace(&mut kept.used, false));
        lock(&self.pages).retain(|_, kept| std::mem::replace(&mut kept.used, false));
        self.rendered.swap(0, Ordering::Relaxed)
    }

    pub(super) fn styles(&self) -> impl Iterator<Item = (&'static str, Bytes)> + '_ {
        self.styles.iter().map(|(path, text)| (*path, Bytes::clone(text)))
    }
}

fn lock<T>(kept: &Mutex<T>) -> MutexGuard<'_, T> {
    kept.lock().unwrap_or_else(PoisonError::into_inner)
}
