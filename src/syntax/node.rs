//! A YAML value and its place.

use crate::source::{Span, Spanned};

/// A YAML value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Node {
    /// Where it stands: for a scalar the value itself, for a map or list from its first to its last word.
    pub span: Span,
    /// What it is.
    pub kind: NodeKind,
}

/// What a YAML value is. Scalars keep their text: `NO` stays `NO`, `012` stays `012`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NodeKind {
    /// A word, a number, a text. `exact` says that the text is the very slice of the file under the span, so that a
    /// place within the text is a place in the file.
    Scalar {
        /// The text, escapes resolved.
        text: String,
        /// Whether the span covers exactly this text.
        exact: bool,
    },
    /// Keys to values, in the order written; no key twice.
    Map(Vec<Entry>),
    /// A list.
    List(Vec<Node>),
    /// Nothing was written.
    Empty,
    /// Something was written that could not be read; a finding says so already.
    Broken,
}

/// A key and its value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// The key.
    pub key: Spanned<String>,
    /// The value.
    pub value: Node,
}

impl Entry {
    /// The key as a scalar, for keys that are values as well, such as ids and times.
    pub fn key_node(&self) -> Node {
        let span = self.key.span;
        let text = self.key.value.clone();
        // An escape within quotes makes the text and what was written differ, nearly always in length.
        let exact = (span.end - span.start) as usize == text.len() && text.is_ascii();
        Node {
            span,
            kind: NodeKind::Scalar { text, exact },
        }
    }
}

impl Node {
    /// The text of a scalar.
    pub fn text(&self) -> Option<&str> {
        match &self.kind {
            NodeKind::Scalar { text, .. } => Some(text),
            _ => None,
        }
    }

    /// The place of `range` within a scalar's text; the whole scalar where the text is not a slice of the file.
    pub fn within(&self, range: &std::ops::Range<usize>) -> Span {
        match &self.kind {
            NodeKind::Scalar { text, exact: true } if range.start <= range.end && range.end <= text.len() => {
                let start = self.span.start as usize;
                Span::new(self.span.file, start + range.start, start + range.end)
            }
            _ => self.span,
        }
    }

    /// The entries of a map.
    pub fn entries(&self) -> Option<&[Entry]> {
        match &self.kind {
            NodeKind::Map(entries) => Some(entries),
            _ => None,
        }
    }

    /// The value of a key, where this is a map that has it.
    pub fn get(&self, key: &str) -> Option<&Self> {
        self.entries()?
            .iter()
            .find(|entry| entry.key.value == key)
            .map(|entry| &entry.value)
    }

    /// The items of a list; a scalar or a map stands for a list of one, nothing for an empty list.
    pub fn items(&self) -> &[Self] {
        match &self.kind {
            NodeKind::List(items) => items,
            NodeKind::Empty | NodeKind::Broken => &[],
            _ => std::slice::from_ref(self),
        }
    }

    /// What was written, in words, for a message.
    pub fn shape(&self) -> &'static str {
        match &self.kind {
            NodeKind::Scalar { .. } => "a word or a number",
            NodeKind::Map(_) => "keys with values",
            NodeKind::List(_) => "a list",
            NodeKind::Empty => "nothing",
            NodeKind::Broken => "something unreadable",
        }
    }
}
