//! A page's body: Markdown and HTML become stretches of safe HTML, with facts and blocks in their places between them.

use pulldown_cmark::html::push_html;
use pulldown_cmark::{Event, HeadingLevel, Tag, TagEnd};
use serde::Serialize;

use super::sanitise;
use super::slots::Marks;
use super::walk::Walk;
use crate::views::page::{BlockView, FactView, PageView, Piece};

/// A page's body, ready for the template.
#[derive(Debug)]
pub(super) struct Prose<'p> {
    /// The anchor of the first heading, where that is the page's title and the template shows it.
    pub(super) title_id: Option<String>,
    /// The body, in order.
    pub(super) parts: Vec<Part<'p>>,
}

/// A stretch of the body.
#[derive(Debug, Clone, Serialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
pub(super) enum Part<'p> {
    /// HTML that is safe as it stands.
    Html { html: String },
    /// A fact in running text; `beside` where its slip hangs right there.
    Fact { fact: &'p FactView, beside: bool },
    /// The slips of the paragraph before; `alone` where they do not also hang beside it.
    Slips { facts: Vec<&'p FactView>, alone: bool },
    /// A block and the slips beside it; `level` is its heading's, `sub` that of the headings in it.
    Block {
        block: &'p BlockView,
        slips: Vec<&'p FactView>,
        level: usize,
        sub: usize,
    },
}

/// Renders the body of `page`.
pub(super) fn render<'p>(page: &'p PageView<'_>) -> Prose<'p> {
    let (title_id, body) = without_title(page);
    let raw = body
        .iter()
        .any(|piece| matches!(piece, Piece::Markdown(Event::Html(_) | Event::InlineHtml(_))));
    let mut salt = 0;
    loop {
        let marks = Marks::new(salt);
        let walk = Walk::over(body, marks);
        let mut html = String::with_capacity(4096);
        push_html(&mut html, walk.events.into_iter());
        // The author wrote our mark: take another. Each round needs a new such word, so the text's length bounds them.
        if marks.count(&html) != walk.slots.len() {
            salt += 1;
            continue;
        }
        if raw {
            html = sanitise::clean(&html);
        }
        return Prose {
            title_id,
            parts: fill(&html, marks, &walk.slots),
        };
    }
}

/// The body without its first heading, where that repeats the title, and that heading's anchor.
fn without_title<'p, 'a>(page: &'p PageView<'a>) -> (Option<String>, &'p [Piece<'a>]) {
    let whole = (None, page.body.as_slice());
    let Some(Piece::Markdown(Event::Start(Tag::Heading {
        level: HeadingLevel::H1,
        id,
        ..
    }))) = page.body.first()
    else {
        return whole;
    };
    let mut text = String::new();
    for (at, piece) in page.body.iter().enumerate() {
        match piece {
            Piece::Markdown(Event::End(TagEnd::Heading(_))) => {
                if text.trim() != page.title.trim() {
                    return whole;
                }
                let rest = page.body.get(at + 1..).unwrap_or_default();
                return (id.as_ref().map(ToString::to_string), rest);
            }
            Piece::Markdown(Event::Text(part) | Event::Code(part)) => text.push_str(part),
            Piece::Markdown(Event::InlineHtml(_)) | Piece::Fact(_) | Piece::Block(_) => return whole,
            Piece::Markdown(_) => {}
        }
    }
    whole
}

/// Puts what the slots hold where their marks stand.
fn fill<'p>(html: &str, marks: Marks, slots: &[Part<'p>]) -> Vec<Part<'p>> {
    let mut parts = Vec::with_capacity(slots.len() * 2 + 1);
    let mut placed = vec![false; slots.len()];
    for (html, slot) in marks.cut(html) {
        if !html.is_empty() {
            parts.push(Part::Html {
                html: html.to_owned(),
            });
        }
        if let Some((part, placed)) = slot.and_then(|slot| Some((slots.get(slot)?, placed.get_mut(slot)?))) {
            parts.push(part.clone());
            *placed = true;
        }
    }
    // An author's broken HTML, such as a comment left open, may have swallowed some. A block carries cautions: show it.
    let swallowed = slots
        .iter()
        .zip(placed)
        .filter(|(part, placed)| !placed && !matches!(part, Part::Fact { .. }));
    parts.extend(swallowed.map(|(part, _)| part.clone()));
    parts
}
