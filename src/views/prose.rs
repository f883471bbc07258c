//! A page's body: its Markdown once more, with blocks, facts and links in their places.

use std::collections::BTreeSet;
use std::ops::Range;

use pulldown_cmark::{CodeBlockKind, CowStr, Event, Parser, Tag, TagEnd};

use crate::notebook::{Block, Kind, PageHead};
use crate::syntax::{self, Fence, Page, Reference};

use super::block_view::{self, Desk};
use super::fact_view;
use super::page::{FactView, Piece};
use super::paths::Target;

/// A page's body, and the pictures it shows as paths in the notebook.
#[derive(Debug, Default)]
pub(super) struct Body<'a> {
    pub(super) pieces: Vec<Piece<'a>>,
    pub(super) pictures: BTreeSet<String>,
}

/// Reads the body of a page. `blocks` are the page's own, in order of place.
pub(super) fn body<'a>(desk: &Desk<'a>, head: &'a PageHead, page: &'a Page, blocks: &'a [Block]) -> Body<'a> {
    let Some(source) = desk.sources.get(head.file) else {
        return Body::default();
    };
    let text: &'a str = source.text();
    let mut walk = Walk {
        desk,
        head,
        page,
        text,
        body: Body::default(),
        references: references(desk, head, page),
        next_reference: 0,
        next_heading: 0,
        next_link: 0,
        links: Vec::new(),
        images: Vec::new(),
    };
    let mut events = Parser::new_ext(text, syntax::markdown_options()).into_offset_iter();
    let mut fences = page.fences.iter().peekable();
    let mut blocks = blocks.iter().peekable();
    while let Some((event, range)) = events.next() {
        match event {
            Event::Start(Tag::MetadataBlock(_)) => {
                skip(&mut events, |end| matches!(end, TagEnd::MetadataBlock(_)));
            }
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(_))) => {
                let start = range.start as u32;
                while fences.next_if(|fence| fence.span.start < start).is_some() {}
                while blocks.next_if(|block| block.span.start < start).is_some() {}
                let fence = fences.next_if(|fence| fence.span.start == start);
                let block = blocks.next_if(|block| block.span.start == start);
                if walk.fence(fence, block) {
                    skip(&mut events, |end| matches!(end, TagEnd::CodeBlock));
                } else {
                    walk.event(event, &range);
                }
            }
            event => walk.event(event, &range),
        }
    }
    walk.body
}

/// Leaves out events up to the end of what has begun.
fn skip<'a>(events: &mut impl Iterator<Item = (Event<'a>, Range<usize>)>, is_end: impl Fn(TagEnd) -> bool) {
    for (event, _) in events {
        if let Event::End(end) = event
            && is_end(end)
        {
            return;
        }
    }
}

/// The references of a page that stand for a fact, with their views. A name that is no fact stays as it was written.
fn references<'a>(desk: &Desk<'a>, head: &PageHead, page: &'a Page) -> Vec<(&'a Reference, FactView)> {
    page.references
        .iter()
        .filter_map(|reference| Some((reference, fact(desk, head, &reference.name.value)?)))
        .collect()
}

fn fact(desk: &Desk<'_>, head: &PageHead, name: &str) -> Option<FactView> {
    let (id, short) = name.split_once('.')?;
    let block = desk.notebook.block(id)?;
    if !desk.places.is_open(id) || desk.places.keeps_back(desk.facts, block, short) {
        return Some(FactView {
            id: name.to_owned(),
            label: name.to_owned(),
            text: "—".to_owned(),
            how: "kept on a private page".to_owned(),
            gap: true,
            margin: true,
            href: None,
        });
    }
    let fact = desk.facts.get(id, short)?;
    let bath = desk.bath(block);
    let view = if block.page == head.file {
        fact_view::view(block, fact, bath, desk.words, desk.style)
    } else {
        fact_view::from_afar(block, fact, bath, desk)
    };
    Some(FactView {
        href: desk.places.block_from(head.file, block),
        ..view
    })
}

struct Walk<'d, 'a> {
    desk: &'d Desk<'a>,
    head: &'a PageHead,
    page: &'a Page,
    text: &'a str,
    body: Body<'a>,
    references: Vec<(&'a Reference, FactView)>,
    next_reference: usize,
    next_heading: usize,
    next_link: usize,
    /// Whether each open link is kept.
    links: Vec<bool>,
    /// Whether each open picture is kept.
    images: Vec<bool>,
}

impl<'a> Walk<'_, 'a> {
    fn push(&mut self, event: Event<'a>) {
        self.body.pieces.push(Piece::Markdown(event));
    }

    /// Puts a block in the place of its fence; false where the fence is ordinary code.
    fn fence(&mut self, fence: Option<&'a Fence>, block: Option<&'a Block>) -> bool {
        let view = match (block, fence) {
            (Some(block), _) => {
                self.body.pictures.extend(self.desk.scans(block));
                block_view::view(self.desk, block)
            }
            (None, Some(fence)) => {
                let word = fence.info.value.split_whitespace().next().unwrap_or("");
                match Kind::from_word(word) {
                    Some(kind) => block_view::unread(self.desk, kind, fence),
                    None => return false,
                }
            }
            (None, None) => return false,
        };
        self.body.pieces.push(Piece::Block(Box::new(view)));
        true
    }

    fn event(&mut self, event: Event<'a>, range: &Range<usize>) {
        match event {
            Event::Text(part) => self.prose(part, range),
            Event::Start(Tag::Heading {
                level,
                classes,
                attrs,
                ..
            }) => {
                let id = self
                    .page
                    .anchors
                    .get(self.next_heading)
                    .map(|anchor| self.desk.places.heading(self.head.file, anchor).into());
                self.next_heading += 1;
                self.push(Event::Start(Tag::Heading {
                    level,
                    id,
                    classes,
                    attrs,
                }));
            }
            Event::Start(Tag::Link {
                link_type,
                dest_url,
                title,
                id,
            }) => {
                self.next_link += 1;
                let dest = self.link(dest_url);
                self.links.push(dest.is_some());
                if let Some(dest_url) = dest {
                    self.push(Event::Start(Tag::Link {
                        link_type,
                        dest_url,
                        title,
                        id,
                    }));
                }
            }
            Event::Start(Tag::Image {
                link_type,
                dest_url,
                title,
                id,
            }) => {
                let dest = self.picture(dest_url);
                self.next_link += 1;
                self.images.push(dest.is_some());
                if let Some(dest_url) = dest {
                    self.push(Event::Start(Tag::Image {
                        link_type,
                        dest_url,
                        title,
                        id,
                    }));
                }
            }
            Event::End(TagEnd::Link) => {
                if self.links.pop().unwrap_or(true) {
                    self.push(Event::End(TagEnd::Link));
                }
            }
            Event::End(TagEnd::Image) => {
                if self.images.pop().unwrap_or(true) {
                    self.push(Event::End(TagEnd::Image));
                }
            }
            Event::InlineHtml(word) if syntax::is_no_tag(&word) => self.push(Event::Text(word)),
            event => self.push(event),
        }
    }

    fn link(&mut self, written: CowStr<'a>) -> Option<CowStr<'a>> {
        match self.desk.places.target(self.head, &self.page.anchors, &written) {
            None => Some(written),
            Some(Target::Address(address)) => Some(address.into()),
            Some(Target::Picture { from, address }) if !self.is_missing() => {
                self.body.pictures.insert(from);
                Some(address.into())
            }
            Some(Target::Picture { .. } | Target::Nowhere) => None,
        }
    }

    fn picture(&mut self, written: CowStr<'a>) -> Option<CowStr<'a>> {
        match self.desk.places.target(self.head, &self.page.anchors, &written) {
            None => Some(written),
            Some(Target::Picture { from, address }) if !self.is_missing() => {
                self.body.pictures.insert(from);
                Some(address.into())
            }
            Some(_) => None,
        }
    }

    /// Whether the link that is being read leads to a picture that does not exist.
    fn is_missing(&self) -> bool {
        self.page
            .links
            .get(self.next_link)
            .is_some_and(|link| self.desk.missing.contains(&link.target.span))
    }

    /// Text, cut where a reference stands in it. A reference that Markdown cut in two stands where it begins.
    fn prose(&mut self, part: CowStr<'a>, range: &Range<usize>) {
        let mut at = range.start;
        while let Some((reference, _)) = self.references.get(self.next_reference)
            && (reference.span.end as usize) <= range.start
        {
            self.next_reference += 1;
        }
        let touches = |reference: &Reference| (reference.span.start as usize) < range.end;
        if self
            .references
            .get(self.next_reference)
            .is_none_or(|(reference, _)| !touches(reference))
        {
            self.push(Event::Text(part));
            return;
        }
        while let Some((reference, view)) = self.references.get(self.next_reference)
            && touches(reference)
        {
            let (start, end) = (reference.span.start as usize, reference.span.end as usize);
            let begins_here = start >= range.start;
            let view = begins_here.then(|| view.clone());
            self.stretch(at..start.max(at));
            self.body.pieces.extend(view.map(Piece::Fact));
            at = end.min(range.end);
            if end > range.end {
                return;
            }
            self.next_reference += 1;
        }
        self.stretch(at..range.end);
    }

    /// The text of a stretch of the page, if it is not empty.
    fn stretch(&mut self, range: Range<usize>) {
        let text = self.text.get(range).unwrap_or("");
        if !text.is_empty() {
            self.push(Event::Text(text.into()));
        }
    }
}
