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
    /// The heading that the page opens with, if it does: the template shows it as the page's title.
    pub(super) opening: Option<Opening>,
    /// The body, in order.
    pub(super) parts: Vec<Part<'p>>,
}

/// A first heading and its anchor.
#[derive(Debug, Serialize)]
pub(super) struct Opening {
    pub(super) text: String,
    pub(super) id: Option<String>,
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
    let (opening, body) = without_opening(page);
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
            opening,
            parts: fill(&html, marks, &walk.slots),
        };
    }
}

/// The body without the heading it opens with, and that heading. One that holds more than words stays where it is.
fn without_opening<'p, 'a>(page: &'p PageView<'a>) -> (Option<Opening>, &'p [Piece<'a>]) {
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
    for (at, piece) in page.body.iter().enumerate().skip(1) {
        match piece {
            Piece::Markdown(Event::End(TagEnd::Heading(_))) if text.trim().is_empty() => return whole,
            Piece::Markdown(Event::End(TagEnd::Heading(_))) => {
                let rest = page.body.get(at + 1..).unwrap_or_default();
                let id = id.as_ref().map(ToString::to_string);
                return (Some(Opening { text, id }), rest);
            }
            Piece::Markdown(Event::Text(part) | Event::Code(part)) => text.push_str(part),
            _ => return whole,
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
