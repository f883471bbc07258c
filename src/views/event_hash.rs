//! A hash of a Markdown event: what its library tells alike and does not hash.

use std::hash::{Hash, Hasher};
use std::mem::discriminant;

use pulldown_cmark::{CodeBlockKind, Event, Tag};

/// Adds an event to a hash. Events that are equal add the same.
pub(super) fn hash<H: Hasher>(event: &Event<'_>, state: &mut H) {
    discriminant(event).hash(state);
    match event {
        Event::Start(tag) => hash_tag(tag, state),
        Event::End(end) => end.hash(state),
        Event::Text(text)
        | Event::Code(text)
        | Event::InlineMath(text)
        | Event::DisplayMath(text)
        | Event::Html(text)
        | Event::InlineHtml(text)
        | Event::FootnoteReference(text) => text.hash(state),
        Event::TaskListMarker(done) => done.hash(state),
        Event::SoftBreak | Event::HardBreak | Event::Rule => {}
    }
}

fn hash_tag<H: Hasher>(tag: &Tag<'_>, state: &mut H) {
    discriminant(tag).hash(state);
    match tag {
        Tag::Heading {
            level,
            id,
            classes,
            attrs,
        } => (level, id, classes, attrs).hash(state),
        Tag::BlockQuote(kind) => kind.hash(state),
        Tag::CodeBlock(kind) => {
            discriminant(kind).hash(state);
            if let CodeBlockKind::Fenced(info) = kind {
                info.hash(state);
            }
        }
        Tag::List(first) => first.hash(state),
        Tag::FootnoteDefinition(label) => label.hash(state),
        Tag::Table(columns) => {
            for column in columns {
                discriminant(column).hash(state);
            }
            columns.len().hash(state);
        }
        Tag::Link {
            link_type,
            dest_url,
            title,
            id,
        }
        | Tag::Image {
            link_type,
            dest_url,
            title,
            id,
        } => {
            discriminant(link_type).hash(state);
            (dest_url, title, id).hash(state);
        }
        Tag::MetadataBlock(kind) => kind.hash(state),
        _ => {}
    }
}
