//! What the preview shows: what was pressed last, and of pages that a save broke the last good state.

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::Arc;

use super::answers::hash_of;
use super::drawn::{is_drawn_with, is_search_data, pictures_on};
use super::session::Round;
use crate::finding::{Finding, Grade, Summary, slug};
use crate::host::Bytes;
use crate::pipeline::{File, Proof};
use crate::views::paths::site_paths;

/// A file's bytes, shared by several states, and what tells them from others.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Held {
    bytes: Bytes,
    hash: u64,
}

impl Held {
    /// What is held already, where it is the same.
    fn of(bytes: &Bytes, before: Option<&Self>) -> Self {
        match before.filter(|held| Bytes::ptr_eq(&held.bytes, bytes) || held.bytes == *bytes) {
            Some(held) => held.clone(),
            None => Self {
                bytes: Bytes::clone(bytes),
                hash: hash_of(bytes),
            },
        }
    }
}

/// A file of the preview.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Page<'s> {
    /// What stands in it.
    pub bytes: &'s [u8],
    /// Why it is not what the last save would give, where it is not.
    pub stale: Option<&'s str>,
}

/// A page as it was before a save broke it.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Stale {
    held: Held,
    why: String,
}

/// One state of the preview.
#[derive(Debug, Clone, Default)]
pub struct Shown {
    /// By path from the site's root; cards stand below `cards/`.
    files: Arc<BTreeMap<String, Held>>,
    /// Of these, pages that were saved since then.
    first: BTreeMap<String, Held>,
    stale: BTreeMap<String, Stale>,
    /// Pages as they were when nothing was wrong with them.
    good: Arc<BTreeMap<String, Held>>,
    /// Where pages of the notebook stand, those included that can no longer be read.
    places: Arc<BTreeMap<String, String>>,
    /// Of all findings, and of these what pressing found.
    summary: Summary,
    of_pressing: Summary,
    trouble: Option<String>,
    /// What every page changes with: see [`is_drawn_with`].
    drawn_with: u64,
}

impl Shown {
    /// The state after a round, which had `before` before it.
    pub fn after(before: &Self, round: &Round) -> Self {
        let faulty = faulty(&round.proof);
        let sources = &round.proof.sources;
        let sites = site_paths(&round.proof.notebook);
        let sites = sites.into_iter();
        let mut places: BTreeMap<String, String> = sites
            .map(|(file, place)| (sources.path(file).to_owned(), place))
            .collect();
        for path in faulty.keys() {
            if let (false, Some(place)) = (places.contains_key(*path), before.places.get(*path)) {
                places.insert((*path).to_owned(), place.clone());
            }
        }
        let files = taken(&before.files, round);
        let (mut good, mut stale) = (BTreeMap::new(), BTreeMap::new());
        for (path, place) in &places {
            match faulty.get(path.as_str()) {
                Some(why) => {
                    if let Some(held) = before.good(place) {
                        good.insert(place.clone(), held.clone());
                        let (held, why) = (held.clone(), why.clone());
                        stale.insert(place.clone(), Stale { held, why });
                    }
                }
                None => {
                    if let Some(held) = files.get(place) {
                        good.insert(place.clone(), held.clone());
                    }
                }
            }
        }
        stale_clocks(before, &files, &faulty, &mut stale);
        let of_pressing = Summary::of(&round.pressing.findings);
        let mut shown = Self {
            files: Arc::new(files),
            stale,
            good: Arc::new(good),
            places: Arc::new(places),
            summary: round.proof.summary().and(of_pressing),
            of_pressing,
            ..Self::default()
        };
        shown.keep_the_site(before, round);
        let mut hasher = DefaultHasher::new();
        for (path, held) in shown.files.iter().filter(|(path, _)| is_drawn_with(path)) {
            (path, held.hash).hash(&mut hasher);
        }
        shown.drawn_with = hasher.finish();
        shown
    }

    /// The same state with some pages as they were just saved, before all else is pressed. Those with a fault are left as they
    /// are: what is to be shown in their place is for [`Shown::after`].
    #[must_use]
    pub fn with_first(&self, proof: &Proof, pages: &[File]) -> Self {
        let mut shown = Self {
            trouble: None,
            // What pressing finds is not known yet: most likely what it found before.
            summary: proof.summary().and(self.of_pressing),
            ..self.clone()
        };
        let faulty = faulty(proof);
        for (path, bytes) in pages {
            let Some(place) = path.strip_prefix("site/") else {
                continue;
            };
            // A page that is new is shown with all else.
            let mut known = self.places.iter().filter(|(_, known)| *known == place);
            if known
                .next()
                .is_none_or(|(path, _)| faulty.contains_key(path.as_str()))
            {
                continue;
            }
            let held = Held::of(bytes, shown.fresh(place));
            if shown.stale.remove(place).is_none() && shown.fresh(place) == Some(&held) {
                continue;
            }
            shown.first.insert(place.to_owned(), held);
        }
        shown
    }

    /// The same state, of which something else is to be said: that the last save could not be pressed.
    #[must_use]
    pub fn troubled(&self, trouble: &str) -> Self {
        Self {
            trouble: Some(trouble.to_owned()),
            ..self.clone()
        }
    }

    /// A file by its path from the site's root; of a stale page the last good state, or with `as_saved` what the last save
    /// gives.
    pub fn page(&self, path: &str, as_saved: bool) -> Option<Page<'_>> {
        let stale = self.stale.get(path);
        let fresh = self.fresh(path);
        match (stale, fresh) {
            (Some(stale), fresh) if !as_saved || fresh.is_none() => Some(Page {
                bytes: &stale.held.bytes,
                stale: Some(&stale.why),
            }),
            (_, Some(held)) => Some(Page {
                bytes: &held.bytes,
                stale: None,
            }),
            (_, None) => None,
        }
    }

    /// What the last save gives.
    fn fresh(&self, path: &str) -> Option<&Held> {
        self.first.get(path).or_else(|| self.files.get(path))
    }

    /// A page as it was when nothing was wrong with it.
    fn good(&self, path: &str) -> Option<&Held> {
        self.first.get(path).or_else(|| self.good.get(path))
    }

    /// Whether what the last save gives can be shown beside the stale page.
    pub fn has_fresh(&self, path: &str) -> bool {
        self.fresh(path).is_some()
    }

    /// What stands on a stale page's stripe, by page.
    pub fn stale_pages(&self) -> impl Iterator<Item = (&str, &str)> {
        self.stale
            .iter()
            .map(|(path, stale)| (path.as_str(), stale.why.as_str()))
    }

    /// How many findings count.
    pub fn summary(&self) -> Summary {
        self.summary
    }

    /// Why the last save could not be pressed, where it could not.
    pub fn trouble(&self) -> Option<&str> {
        self.trouble.as_deref()
    }

    /// Tells a page, asked for as in [`Shown::page`], from any state of it that would look otherwise. A save that changes
    /// nothing of a page leaves its mark, so that whoever reads there is left alone. A page that is not there has a mark too.
    pub fn mark(&self, path: &str, as_saved: bool) -> String {
        let mut hasher = DefaultHasher::new();
        let stale = self.stale.get(path);
        let fresh = self.fresh(path);
        let held = match stale.filter(|_| !as_saved || fresh.is_none()) {
            Some(stale) => {
                (&stale.why, fresh.is_some()).hash(&mut hasher);
                Some(&stale.held)
            }
            None => fresh,
        };
        held.map(|held| held.hash).hash(&mut hasher);
        let html = held.filter(|_| is_page(path)).map_or(&[][..], |held| &held.bytes);
        for picture in pictures_on(path, html) {
            self.files.get(&picture).map(|held| held.hash).hash(&mut hasher);
        }
        // The search looks into all that is written, of which its page shows what was asked for.
        if path == SEARCH_PAGE {
            for (path, held) in self.files.iter().filter(|(path, _)| is_search_data(path)) {
                (path, held.hash).hash(&mut hasher);
            }
        }
        let Summary {
            hazard,
            fault,
            doubt,
            hint,
        } = self.summary;
        (self.drawn_with, hazard, fault, doubt, hint, &self.trouble).hash(&mut hasher);
        format!("{:016x}", hasher.finish())
    }

    /// A broken template takes the whole site with it; then all of it is shown as it was.
    fn keep_the_site(&mut self, before: &Self, round: &Round) {
        let broken = round.pressing.findings.iter().find(|finding| {
            finding.rule == slug::TEMPLATE_BROKEN && !self.files.keys().any(|path| is_page(path))
        });
        let Some(broken) = broken else { return };
        let mut files = BTreeMap::clone(&self.files);
        for (path, held) in before.files.iter().filter(|(path, _)| !is_card(path)) {
            if is_page(path) {
                let (held, why) = (held.clone(), broken.message.clone());
                self.stale.entry(path.clone()).or_insert(Stale { held, why });
            } else {
                files.entry(path.clone()).or_insert_with(|| held.clone());
            }
        }
        self.files = Arc::new(files);
        for (path, stale) in &before.stale {
            self.stale.insert(path.clone(), stale.clone());
        }
        self.good = Arc::clone(&before.good);
        let mut places = BTreeMap::clone(&self.places);
        for (path, place) in before.places.iter() {
            places.entry(path.clone()).or_insert_with(|| place.clone());
        }
        self.places = Arc::new(places);
    }
}

/// A clock is left out while its line cannot be worked out, and somebody may be standing at it: until the fault is mended, it is
/// shown as it was. Which of several faults it was stands on the page of the line, or not: the first is named.
fn stale_clocks(
    before: &Shown,
    files: &BTreeMap<String, Held>,
    faulty: &BTreeMap<&str, String>,
    stale: &mut BTreeMap<String, Stale>,
) {
    let Some(why) = faulty.values().next() else { return };
    let were = before.stale.iter().map(|(path, stale)| (path, &stale.held));
    let is_written = |path: &String| before.places.values().any(|place| place == path);
    for (path, held) in before.files.iter().chain(were) {
        if is_clock(path) && !files.contains_key(path) && !is_written(path) {
            let (held, why) = (held.clone(), why.clone());
            stale.insert(path.clone(), Stale { held, why });
        }
    }
}

fn is_clock(path: &str) -> bool {
    path.starts_with("clock/") && is_page(path)
}

fn is_card(path: &str) -> bool {
    path.starts_with("cards/") && ending(path) == "pdf"
}

fn is_page(path: &str) -> bool {
    ending(path) == "html"
}

const SEARCH_PAGE: &str = "search.html";

fn ending(path: &str) -> &str {
    path.rsplit_once('.').map_or("", |(_, ending)| ending)
}

/// The files of the site and the cards beside it, each shared with the state before where it is the same. No page or picture
/// of a site is a PDF, so the two never want one place.
fn taken(before: &BTreeMap<String, Held>, round: &Round) -> BTreeMap<String, Held> {
    let files = round.files.iter().filter_map(|(path, bytes)| {
        let place = path
            .strip_prefix("site/")
            .or_else(|| is_card(path).then_some(path))?;
        Some((place.to_owned(), Held::of(bytes, before.get(place))))
    });
    files.collect()
}

/// The files of the notebook with a fault that counts, and the first of them in words.
fn faulty(proof: &Proof) -> BTreeMap<&str, String> {
    let mut faulty = BTreeMap::new();
    let faults = proof
        .findings
        .iter()
        .filter(|finding| finding.counts() && finding.grade == Grade::Fault);
    for finding in faults {
        faulty
            .entry(proof.sources.path(finding.span.file))
            .or_insert_with(|| worded(proof, finding));
    }
    faulty
}

fn worded(proof: &Proof, finding: &Finding) -> String {
    let at = proof.sources.position(finding.span);
    let path = proof.sources.path(finding.span.file);
    format!("{path}:{}:{}: {}", at.line, at.column, finding.message)
}
