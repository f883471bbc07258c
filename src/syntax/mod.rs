//! Pages as text knows them: Markdown with fences, YAML as a tree whose every node has a place. No photography here.
//!
//! Reading never fails. What cannot be read becomes a finding and a [`NodeKind::Broken`] node, on which later layers stay
//! quiet.

mod fold;
mod no_tag;
mod node;
mod page;
mod picture;
mod slug;
mod target;
mod yaml;

pub use fold::fold;
pub(crate) use no_tag::is_no_tag;
pub use node::{Entry, Node, NodeKind};
pub use page::{Fence, Link, LinkKind, Page, Reference, read_page};
pub use picture::shown_as_is;
pub use slug::slug;
pub use target::{is_elsewhere, resolve, written_on};
pub use yaml::{Document, read_yaml};

/// What a page may hold at most, in bytes. A photographer's page is a few kilobytes; a file beyond this is a mistake.
pub const PAGE_LIMIT: u64 = 8 * 1024 * 1024;

/// The Markdown extensions that pages are read with, everywhere.
pub fn markdown_options() -> pulldown_cmark::Options {
    use pulldown_cmark::Options;
    Options::ENABLE_YAML_STYLE_METADATA_BLOCKS
        | Options::ENABLE_TABLES
        | Options::ENABLE_STRIKETHROUGH
        | Options::ENABLE_FOOTNOTES
        | Options::ENABLE_TASKLISTS
}
