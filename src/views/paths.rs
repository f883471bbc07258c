//! Where everything stands in the site: pages, blocks and pictures; and what is not in it because its page is private.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use crate::facts::{Fact, Facts, KeptBack, Open};
use crate::notebook::{Audience, Block, Notebook, PageHead};
use crate::source::{ByName, FileId};
use crate::syntax::{is_elsewhere, resolve};

use super::file_name::{alike, safe_path};
use super::pictures;

/// The public pages and blocks of a notebook, and their addresses.
#[derive(Debug)]
pub(super) struct Places<'a> {
    notebook: &'a Notebook,
    /// Public pages in reading order.
    order: Vec<usize>,
    /// The page in the site, of a file that is public.
    sites: BTreeMap<FileId, String>,
    /// The file of a public page, by its path in the notebook.
    files: ByName<&'a str, FileId>,
    open: Open<'a>,
    /// What the log teaches from sheets that are not open.
    kept_back: OnceLock<KeptBack>,
    private: BTreeSet<&'a str>,
}

/// Where a link of a page leads.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Target {
    /// To this address.
    Address(String),
    /// To a picture at this path in the notebook, which has this address.
    Picture { from: String, address: String },
    /// Nowhere in the site: its text is shown alone.
    Nowhere,
}

/// The blocks whose data may be shown: those that stand on public pages and take nothing from private ones.
pub fn public_blocks(notebook: &Notebook) -> Open<'_> {
    Open::of(notebook)
}

/// Where each public page stands in the site, by the page's file.
pub fn site_paths(notebook: &Notebook) -> BTreeMap<FileId, String> {
    let mut sites = BTreeMap::new();
    let mut taken: ByName<String, ()> = ByName::default();
    for head in reading_order(notebook)
        .iter()
        .filter_map(|&at| notebook.pages.get(at))
    {
        let stem = head
            .path
            .get(..head.path.len().saturating_sub(".md".len()))
            .unwrap_or(&head.path);
        let mut site = safe_path(&format!("{stem}.html"));
        let mut number = 1;
        while taken.insert(alike(&site), ()).is_some() {
            number += 1;
            site = safe_path(&format!("{stem}-{number}.html"));
        }
        sites.insert(head.file, site);
    }
    sites
}

/// The public pages, as places in the notebook's list: its opening page first, then by path.
fn reading_order(notebook: &Notebook) -> Vec<usize> {
    let mut order: Vec<usize> = public_pages(notebook).map(|(at, _)| at).collect();
    let path = |at: usize| notebook.pages.get(at).map_or("", |head| head.path.as_str());
    order.sort_by_key(|&at| (path(at) != "index.md", path(at)));
    order
}

fn public_pages(notebook: &Notebook) -> impl Iterator<Item = (usize, &PageHead)> {
    notebook
        .pages
        .iter()
        .enumerate()
        .filter(|(_, head)| head.audience == Audience::Public)
}

impl<'a> Places<'a> {
    /// Finds a place for every public page.
    pub(super) fn of(notebook: &'a Notebook) -> Self {
        let files = public_pages(notebook).map(|(_, head)| (head.path.as_str(), head.file));
        Self {
            notebook,
            order: reading_order(notebook),
            sites: site_paths(notebook),
            files: files.collect(),
            open: public_blocks(notebook),
            kept_back: OnceLock::new(),
            private: notebook
                .pages
                .iter()
                .filter(|head| head.audience == Audience::Private)
                .map(|head| head.path.as_str())
                .collect(),
        }
    }

    /// The public pages, in reading order, as places in the notebook's list.
    pub(super) fn order(&self) -> &[usize] {
        &self.order
    }

    /// A public page's path in the site.
    pub(super) fn site_path(&self, file: FileId) -> Option<&str> {
        self.sites.get(&file).map(String::as_str)
    }

    /// The paths of all public pages in the site.
    pub(super) fn site_paths(&self) -> impl Iterator<Item = &str> {
        self.sites.values().map(String::as_str)
    }

    /// Whether a block's facts and data may be shown.
    pub(super) fn is_open(&self, id: &str) -> bool {
        self.open.contains(id)
    }

    /// Whether a page of this path is private.
    pub(super) fn is_private_page(&self, path: &str) -> bool {
        self.private.contains(path)
    }

    /// A block on a public page, by its id.
    pub(super) fn block(&self, id: &str) -> Option<&'a Block> {
        self.notebook
            .block(id)
            .filter(|block| self.sites.contains_key(&block.page))
    }

    /// The anchor of a block on its page. The second of two blocks with one id gets one made from its place.
    pub(super) fn anchor(&self, block: &Block) -> String {
        if self.notebook.leads_to(block) {
            block.id.clone()
        } else {
            format!("{}.{}", block.id, block.span.start)
        }
    }

    /// The address of a block from the site's root.
    pub(super) fn block_from_root(&self, block: &Block) -> Option<String> {
        let page = self.site_path(block.page)?;
        Some(format!("{}#{}", encode(page), encode(&self.anchor(block))))
    }

    /// The address of a block from the page of `file`.
    pub(super) fn block_from(&self, file: FileId, block: &Block) -> Option<String> {
        if block.page == file {
            return Some(format!("#{}", encode(&self.anchor(block))));
        }
        let root = root_of(self.site_path(file)?);
        Some(format!("{root}{}", self.block_from_root(block)?))
    }

    /// The anchor that a heading has on the page: its own, where no block has taken it.
    pub(super) fn heading(&self, file: FileId, anchor: &str) -> String {
        let taken = self
            .notebook
            .block(anchor)
            .is_some_and(|block| block.page == file);
        if taken {
            format!("{anchor}.heading")
        } else {
            anchor.to_owned()
        }
    }

    /// Where a link or picture written on a page leads; none for an address of its own, which stays as it is.
    pub(super) fn target(&self, head: &PageHead, anchors: &[String], written: &str) -> Option<Target> {
        if is_elsewhere(written) {
            return None;
        }
        let (path, anchor) = written.split_once('#').unwrap_or((written, ""));
        if path.is_empty() {
            return Some(self.anchor_target(head, anchors, anchor));
        }
        let Some(full) = resolve(&head.path, path) else {
            return Some(Target::Nowhere);
        };
        let root = self.site_path(head.file).map_or("", root_of);
        if let Some(&file) = self.files.get(full.as_str()) {
            let page = self.sites.get(&file).map_or("", String::as_str);
            let fragment = self.fragment(file, anchor);
            return Some(Target::Address(format!("{root}{}{fragment}", encode(page))));
        }
        if pictures::is_picture(&full) {
            let address = format!("{root}{}", encode(&pictures::site_path(&full)));
            return Some(Target::Picture { from: full, address });
        }
        Some(Target::Nowhere)
    }

    fn anchor_target(&self, head: &PageHead, anchors: &[String], anchor: &str) -> Target {
        if let Some(block) = self.block(anchor) {
            return self
                .block_from(head.file, block)
                .map_or(Target::Nowhere, Target::Address);
        }
        if anchors.iter().any(|known| known == anchor) {
            return Target::Address(format!("#{}", encode(&self.heading(head.file, anchor))));
        }
        Target::Nowhere
    }

    /// `#anchor` on another page, where that page has it.
    fn fragment(&self, file: FileId, anchor: &str) -> String {
        let block = self.block(anchor).is_some_and(|block| block.page == file);
        let page = self.notebook.texts.binary_search_by_key(&file, |page| page.file);
        let heading = || {
            page.ok()
                .and_then(|at| self.notebook.texts.get(at))
                .is_some_and(|page| page.anchors.iter().any(|known| known == anchor))
        };
        if block || (!anchor.is_empty() && heading()) {
            format!("#{}", encode(anchor))
        } else {
            String::new()
        }
    }

    /// The facts of a block that may be shown.
    pub(super) fn facts<'f>(&self, facts: &'f Facts, block: &Block) -> Vec<&'f Fact> {
        let open = self.notebook.leads_to(block) && self.open.has(block);
        let of_block: &[Fact] = if open { facts.of_block(&block.id) } else { &[] };
        let of_block = of_block.iter();
        of_block
            .filter(|fact| !self.keeps_back(facts, block, &fact.name))
            .collect()
    }

    /// Whether a fact of an open block was learnt from sheets of private pages.
    pub(super) fn keeps_back(&self, facts: &Facts, block: &Block, fact: &str) -> bool {
        if self.open.is_all() {
            return false;
        }
        let kept_back = || KeptBack::of(&facts.learned, &|id| self.is_open(id));
        self.kept_back.get_or_init(kept_back).holds(block, fact)
    }
}

/// The way from a page's folder to the site's root.
pub(super) fn root_of(site_path: &str) -> &'static str {
    const UP: &str =
        "../../../../../../../../../../../../../../../../../../../../../../../../../../../../../../../../";
    let depth = site_path.matches('/').count();
    UP.get(..depth * 3).unwrap_or(UP)
}

/// A path as an address: every byte that could mean something else there is written as `%` and two digits.
pub fn encode(path: &str) -> String {
    const DIGITS: &[u8; 16] = b"0123456789ABCDEF";
    let mut out = String::with_capacity(path.len());
    for &byte in path.as_bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte) {
            out.push(char::from(byte));
        } else {
            out.push('%');
            for nibble in [byte >> 4, byte & 15] {
                out.push(char::from(*DIGITS.get(usize::from(nibble)).unwrap_or(&b'0')));
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{encode, root_of};

    #[test]
    fn the_way_up_is_as_long_as_the_way_down() {
        assert_eq!(root_of("index.html"), "");
        assert_eq!(root_of("a/b/c.html"), "../../");
    }

    #[test]
    fn paths_become_addresses() {
        assert_eq!(
            encode("tea & soda/50 %?#é.html"),
            "tea%20%26%20soda/50%20%25%3F%23%C3%A9.html"
        );
    }
}
