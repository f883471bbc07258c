//! A page's head: front matter and what stands for it.

use crate::finding::{Finding, slug as rule};
use crate::source::{FileId, Span, Spanned};
use crate::syntax::{Node, Page, read_yaml};

use super::date::When;
use super::field::{Field, Shape};
use super::keys::Keys;
use super::lower::Lower;
use super::slot::Slot;
use super::words::words;

words! {
    /// For whom a page is.
    Audience {
        /// Everyone.
        Public = "public",
        /// The author alone: kept out of site and zine.
        Private = "private",
    }
}

/// What a page says of itself.
#[derive(Debug, Clone, PartialEq)]
pub struct PageHead {
    /// The file.
    pub file: FileId,
    /// Path from the notebook folder.
    pub path: String,
    /// Front matter's title, else the first heading, else the file's name.
    pub title: String,
    /// Its date.
    pub date: Slot<Spanned<When>>,
    /// Its tags.
    pub tags: Vec<Spanned<String>>,
    /// For whom it is.
    pub audience: Audience,
}

/// The keys of a page's front matter.
pub(super) const FIELDS: &[Field] = &[
    Field::new("title", Shape::Text, "the page's title"),
    Field::new("date", Shape::Date, "its date"),
    Field::new("tags", Shape::List(&Shape::Text), "words to find it by"),
    Field::new(
        "audience",
        Shape::Word(Audience::WORDS),
        "private keeps it out of site and zine",
    ),
];

pub(super) fn lower(lower: &mut Lower, path: &str, page: &Page) -> PageHead {
    let mut head = PageHead {
        file: page.file,
        path: path.to_owned(),
        title: fallback_title(path, page),
        date: Slot::Absent,
        tags: Vec::new(),
        audience: Audience::Public,
    };
    let Some(front) = &page.front else { return head };
    let document = read_yaml(&front.text, &front.map, &mut lower.findings);
    if !front.closed {
        lower.report(
            Finding::fault(
                rule::FENCE_OPEN,
                front.span.head(),
                "this front matter is never closed",
            )
            .help("end it with a line of three hyphens"),
        );
    }
    if document.broken || !front.closed {
        // Whatever could not be read may have said `private`: showing it would be the worse mistake.
        head.audience = Audience::Private;
    }
    read(
        lower,
        &mut head,
        &document.node,
        front.span.head(),
        document.broken || !front.closed,
    );
    if !front.closed {
        head.audience = Audience::Private;
    }
    head
}

fn read(lower: &mut Lower, head: &mut PageHead, node: &Node, at: Span, broken: bool) {
    let Some(mut keys) = Keys::open(lower, "the front matter", at, node, FIELDS, &[], broken) else {
        return;
    };
    if let Slot::Is(title) = keys.text("title") {
        head.title = title.value;
    }
    head.date = keys.when("date");
    head.tags = keys.texts("tags");
    match keys.word("audience") {
        Slot::Is(word) => head.audience = Audience::from_word(word.value).unwrap_or(Audience::Private),
        Slot::Broken => head.audience = Audience::Private,
        Slot::Absent => {}
    }
}

fn fallback_title(path: &str, page: &Page) -> String {
    if let Some(heading) = &page.heading
        && !heading.value.trim().is_empty()
    {
        return heading.value.clone();
    }
    let name = path.rsplit('/').next().unwrap_or(path);
    name.strip_suffix(".md").unwrap_or(name).replace(['-', '_'], " ")
}
