//! One walk over a page's pieces: headings put in order, links and pictures made safe, and a mark for each fact and block.

use std::collections::BTreeSet;

use pulldown_cmark::{Alignment, CowStr, Event, HeadingLevel, LinkType, Tag, TagEnd};
use tera::escape_html;

use super::headings::Headings;
use super::links::{self, Picture};
use super::prose::Part;
use super::slots::Marks;
use crate::views::page::{BlockView, FactView, Piece};

/// What an image that is being walked through becomes.
enum Image {
    /// A picture: its text goes into an attribute.
    Shown,
    /// A link to another host's picture, and the events there were before its text.
    Linked(String, usize),
    /// Its text alone.
    Text,
}

/// Turns pieces into events that are safe to write, with a mark for each slot.
pub(super) struct Walk<'p, 'a> {
    marks: Marks,
    /// What is to be written.
    pub(super) events: Vec<Event<'a>>,
    /// What belongs in place of each mark.
    pub(super) slots: Vec<Part<'p>>,
    headings: Headings,
    shown_level: HeadingLevel,
    in_heading: bool,
    /// Where the open table began among the events.
    table: Option<usize>,
    /// Where its head began, while we are in it.
    table_head: Option<usize>,
    /// Whether the first cell of each row is what the row is about: its column has no heading.
    row_heads: bool,
    /// Where the open cell began, and whether it is a heading.
    cell: (usize, bool),
    alignments: Vec<Alignment>,
    column: usize,
    /// Whether each open link was kept.
    links: Vec<bool>,
    anchors: usize,
    images: Vec<Image>,
    in_alt: usize,
    /// For each section of the page, the facts that hang beside its blocks.
    hanging: Vec<BTreeSet<&'p str>>,
    section: usize,
    /// Facts of the paragraph we are in.
    facts: Vec<&'p FactView>,
    alone: bool,
}

/// The facts that hang beside the blocks of each section, from one heading to the next.
fn hanging<'p>(body: &'p [Piece<'_>]) -> Vec<BTreeSet<&'p str>> {
    let mut sections = vec![BTreeSet::new()];
    for piece in body {
        match piece {
            Piece::Markdown(Event::Start(Tag::Heading { .. })) => sections.push(BTreeSet::new()),
            Piece::Block(block) => {
                let facts = block.facts.iter().filter(|fact| fact.margin);
                if let Some(section) = sections.last_mut() {
                    section.extend(facts.map(|fact| fact.id.as_str()));
                }
            }
            _ => {}
        }
    }
    sections
}

impl<'p, 'a> Walk<'p, 'a> {
    /// Walks over `body` once.
    pub(super) fn over(body: &'p [Piece<'a>], marks: Marks) -> Self {
        let mut walk = Self {
            marks,
            events: Vec::with_capacity(body.len() + 16),
            slots: Vec::new(),
            headings: Headings::default(),
            shown_level: HeadingLevel::H2,
            in_heading: false,
            table: None,
            table_head: None,
            row_heads: false,
            cell: (0, false),
            alignments: Vec::new(),
            column: 0,
            links: Vec::new(),
            anchors: 0,
            images: Vec::new(),
            in_alt: 0,
            hanging: hanging(body),
            section: 0,
            facts: Vec::new(),
            alone: false,
        };
        for piece in body {
            match piece {
                Piece::Markdown(event) => walk.event(event),
                Piece::Fact(fact) => walk.fact(fact),
                Piece::Block(block) => walk.block(block),
            }
        }
        walk.slips();
        walk
    }

    fn html(&mut self, html: impl Into<CowStr<'a>>) {
        self.events.push(Event::Html(html.into()));
    }

    fn fact(&mut self, fact: &'p FactView) {
        if self.in_alt > 0 {
            self.events.push(Event::Text(fact.text.clone().into()));
            return;
        }
        // In a cell, a heading or a link the slip would hang from the wrong edge or be read as part of the name.
        let beside = self.table.is_none() && !self.in_heading && self.anchors == 0;
        let first = !self.facts.iter().any(|known| known.id == fact.id);
        // Right above or below, the block has the same slip.
        let hangs = self
            .hanging
            .get(self.section)
            .is_some_and(|facts| facts.contains(fact.id.as_str()));
        let mark = self.marks.inline(self.slots.len());
        self.slots.push(Part::Fact {
            fact,
            beside: beside && first && !hangs,
        });
        self.events.push(Event::InlineHtml(mark.into()));
        if first && !hangs {
            self.facts.push(fact);
            self.alone |= !beside;
        }
    }

    fn block(&mut self, block: &'p BlockView) {
        self.slips();
        let level = self.headings.below();
        let mark = self.marks.block(self.slots.len());
        self.slots.push(Part::Block {
            block,
            slips: block.facts.iter().filter(|fact| fact.margin).collect(),
            level,
            sub: (level + 1).min(6),
        });
        self.html(mark);
    }

    /// Sets the slips of what was just read.
    fn slips(&mut self) {
        if self.facts.is_empty() {
            return;
        }
        let mark = self.marks.block(self.slots.len());
        self.slots.push(Part::Slips {
            facts: std::mem::take(&mut self.facts),
            alone: self.alone,
        });
        self.alone = false;
        self.html(mark);
    }

    fn event(&mut self, event: &Event<'a>) {
        match event {
            Event::Start(tag) => self.start(tag),
            Event::End(tag) => self.end(*tag),
            Event::Text(_) | Event::Code(_) | Event::SoftBreak | Event::HardBreak => {
                self.events.push(event.clone());
            }
            _ if self.in_alt > 0 => {}
            Event::TaskListMarker(done) => {
                // The box stands where the item's bullet would.
                let sign = if *done { "☑" } else { "☐" };
                let boxed = format!("<span class=\"task\">{sign}</span> ");
                self.events.push(Event::InlineHtml(boxed.into()));
            }
            Event::Rule => {
                self.slips();
                self.events.push(Event::Rule);
            }
            other => self.events.push(other.clone()),
        }
    }

    fn start(&mut self, tag: &Tag<'a>) {
        if let Tag::Image { .. } = tag {
            self.start_image(tag);
            return;
        }
        if self.in_alt > 0 {
            return;
        }
        match tag {
            Tag::Link {
                link_type,
                dest_url,
                title,
                id,
            } => {
                let dest = match link_type {
                    LinkType::Email => Some(dest_url.to_string()),
                    _ => links::link(dest_url),
                };
                let kept = dest.filter(|_| self.anchors == 0);
                self.links.push(kept.is_some());
                if let Some(dest) = kept {
                    self.anchors += 1;
                    self.events.push(Event::Start(Tag::Link {
                        link_type: *link_type,
                        dest_url: dest.into(),
                        title: title.clone(),
                        id: id.clone(),
                    }));
                }
            }
            Tag::Heading { level, id, .. } => {
                self.in_heading = true;
                self.section += 1;
                self.shown_level =
                    HeadingLevel::try_from(self.headings.enter(*level)).unwrap_or(HeadingLevel::H6);
                self.events.push(Event::Start(Tag::Heading {
                    level: self.shown_level,
                    id: id.clone(),
                    classes: Vec::new(),
                    attrs: Vec::new(),
                }));
            }
            Tag::Table(alignments) => {
                self.slips();
                self.alignments.clone_from(alignments);
                self.table = Some(self.events.len());
                self.html("<div class=\"wide\">");
                self.events.push(Event::Start(tag.clone()));
            }
            Tag::TableHead | Tag::TableRow => {
                self.table_head = matches!(tag, Tag::TableHead).then_some(self.events.len());
                self.row_heads &= self.table_head.is_none();
                self.column = 0;
                self.events.push(Event::Start(tag.clone()));
            }
            Tag::TableCell => self.start_cell(),
            Tag::BlockQuote(_) => {
                self.slips();
                self.events.push(Event::Start(Tag::BlockQuote(None)));
            }
            Tag::List(_) | Tag::CodeBlock(_) | Tag::DefinitionList | Tag::HtmlBlock => {
                self.slips();
                self.events.push(Event::Start(tag.clone()));
            }
            other => self.events.push(Event::Start(other.clone())),
        }
    }

    fn end(&mut self, tag: TagEnd) {
        if matches!(tag, TagEnd::Image) {
            self.end_image();
            return;
        }
        if self.in_alt > 0 {
            return;
        }
        match tag {
            TagEnd::Link => {
                if self.links.pop().unwrap_or(false) {
                    self.anchors = self.anchors.saturating_sub(1);
                    self.events.push(Event::End(tag));
                }
            }
            TagEnd::Heading(_) => {
                self.events.push(Event::End(TagEnd::Heading(self.shown_level)));
                self.in_heading = false;
                self.slips();
            }
            TagEnd::TableCell => self.end_cell(),
            TagEnd::TableHead => self.end_head(tag),
            TagEnd::Table => {
                self.events.push(Event::End(tag));
                self.html("</div>\n");
                let began = self.table.take();
                if !self.facts.is_empty() {
                    if let Some(began) = began {
                        self.events
                            .insert(began, Event::Html("<div class=\"beside\">".into()));
                    }
                    self.slips();
                    self.html("</div>\n");
                }
            }
            TagEnd::Paragraph => {
                self.events.push(Event::End(tag));
                self.slips();
            }
            TagEnd::Item
            | TagEnd::DefinitionListTitle
            | TagEnd::DefinitionListDefinition
            | TagEnd::HtmlBlock => {
                self.slips();
                self.events.push(Event::End(tag));
            }
            other => self.events.push(Event::End(other)),
        }
    }

    /// Written by hand: the usual writer puts the alignment into a style attribute, which the page's policy forbids.
    fn start_cell(&mut self) {
        let heading = self.table_head.is_some() || (self.row_heads && self.column == 0);
        self.cell = (self.events.len(), heading);
        self.open_cell(heading);
    }

    fn open_cell(&mut self, heading: bool) {
        let element = match (heading, self.table_head) {
            (true, Some(_)) => "th scope=\"col\"",
            (true, None) => "th scope=\"row\"",
            (false, _) => "td",
        };
        let class = match self.alignments.get(self.column) {
            Some(Alignment::Left) => " class=\"left\"",
            Some(Alignment::Center) => " class=\"center\"",
            Some(Alignment::Right) => " class=\"right\"",
            Some(Alignment::None) | None => "",
        };
        self.html(format!("<{element}{class}>"));
    }

    fn end_cell(&mut self) {
        let (began, mut heading) = self.cell;
        // A heading without words is none.
        if heading && self.events.len() == began + 1 {
            self.events.pop();
            heading = false;
            self.open_cell(heading);
            self.row_heads |= self.table_head.is_some() && self.column == 0;
        }
        self.column += 1;
        self.html(if heading { "</th>" } else { "</td>" });
    }

    /// A head that says nothing is left out: Markdown knows no table without one.
    fn end_head(&mut self, tag: TagEnd) {
        let Some(began) = self.table_head.take() else {
            return;
        };
        let written = self.events.get(began + 1..).unwrap_or_default();
        if written.iter().all(|event| matches!(event, Event::Html(_))) {
            self.events.truncate(began);
            self.html("<tbody>\n");
        } else {
            self.events.push(Event::End(tag));
        }
    }

    fn start_image(&mut self, tag: &Tag<'a>) {
        let Tag::Image {
            link_type,
            dest_url,
            title,
            id,
        } = tag
        else {
            return;
        };
        let image = match links::picture(dest_url) {
            _ if self.in_alt > 0 => Image::Text,
            Picture::Here(path) => {
                self.in_alt += 1;
                self.events.push(Event::Start(Tag::Image {
                    link_type: *link_type,
                    dest_url: path.into(),
                    title: title.clone(),
                    id: id.clone(),
                }));
                Image::Shown
            }
            Picture::Elsewhere(address) if self.anchors == 0 => {
                self.anchors += 1;
                let mut opening = b"<a href=\"".to_vec();
                // Writing to memory does not fail.
                let _ = escape_html(&address, &mut opening);
                opening.extend_from_slice(b"\">");
                self.events.push(Event::InlineHtml(
                    String::from_utf8_lossy(&opening).into_owned().into(),
                ));
                Image::Linked(address, self.events.len())
            }
            Picture::Elsewhere(_) | Picture::Nowhere => Image::Text,
        };
        self.images.push(image);
    }

    fn end_image(&mut self) {
        match self.images.pop() {
            Some(Image::Shown) => {
                self.in_alt = self.in_alt.saturating_sub(1);
                self.events.push(Event::End(TagEnd::Image));
            }
            Some(Image::Linked(address, before)) => {
                if self.events.len() == before {
                    self.events.push(Event::Text(address.into()));
                }
                self.anchors = self.anchors.saturating_sub(1);
                self.events.push(Event::InlineHtml("</a>".into()));
            }
            Some(Image::Text) | None => {}
        }
    }
}
