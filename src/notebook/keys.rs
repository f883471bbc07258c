//! The keys of a block and of every map within one, taken one by one, each read as its row in the table of fields says.

use crate::finding::{Finding, slug};
use crate::source::{Span, Spanned};
use crate::syntax::{Entry, Node, NodeKind};

use super::date::When;
use super::field::{Field, Shape};
use super::lower::{Figure, Lower, list, text};
use super::nearest;
use super::slot::Slot;
use super::words::Evidence;

/// The entries of a map whose keys are known, being taken one by one.
pub(super) struct Keys<'l, 'n> {
    pub(super) lower: &'l mut Lower,
    fields: &'static [Field],
    more: &'static [Field],
    /// Entry by the key it is read as: a mistyped key is reported and then read as its nearest.
    entries: Vec<(&'static str, &'n Entry)>,
    /// Whether parts could not be read, so that nothing is missed.
    incomplete: bool,
    span: Span,
    head: Span,
}

impl<'l, 'n> Keys<'l, 'n> {
    /// Opens a map: reports unknown and missing keys. `head` is where a missing key is reported; `incomplete` says that
    /// parts of the map could not be read, so that nothing is missed.
    pub(super) fn open(
        lower: &'l mut Lower,
        what: &str,
        head: Span,
        node: &'n Node,
        fields: &'static [Field],
        more: &'static [Field],
        incomplete: bool,
    ) -> Option<Self> {
        let entries: &[Entry] = match &node.kind {
            NodeKind::Map(entries) => entries,
            NodeKind::Empty => &[],
            NodeKind::Broken => return None,
            _ => {
                let example = fields.first().map_or("key", |field| field.key);
                lower.report(
                    Finding::fault(
                        slug::VALUE_SHAPE,
                        node.span,
                        format!("{what} wants keys with values, this is {}", node.shape()),
                    )
                    .help(format!("write one key a line, such as `{example}: ...`")),
                );
                return None;
            }
        };
        let mut keys = Self {
            lower,
            fields,
            more,
            entries: Vec::with_capacity(entries.len()),
            incomplete,
            span: node.span,
            head,
        };
        keys.sort_out(what, entries);
        keys.report_missing(what, head);
        Some(keys)
    }

    fn all_fields(&self) -> impl Iterator<Item = &'static Field> + use<> {
        self.fields.iter().chain(self.more)
    }

    fn sort_out(&mut self, what: &str, entries: &'n [Entry]) {
        let mut unknown = Vec::new();
        for entry in entries {
            match self.all_fields().find(|field| field.key == entry.key.value) {
                Some(field) => self.entries.push((field.key, entry)),
                None => unknown.push(entry),
            }
        }
        for entry in unknown {
            let key = &entry.key;
            let mut finding = Finding::fault(
                slug::KEY_UNKNOWN,
                key.span,
                format!("{what} has no key `{}`", key.value),
            );
            let known = || self.all_fields().map(|field| field.key);
            let near = nearest(&key.value, known()).or_else(|| nearest::shortened(&key.value, known()));
            if let Some(near) = near {
                finding = finding
                    .help(format!("did you mean `{near}`?"))
                    .replace(key.span, near);
                if self.entries.iter().all(|(known, _)| *known != near) {
                    self.entries.push((near, entry));
                }
            } else {
                let known: Vec<&str> = self.fields.iter().map(|field| field.key).collect();
                finding = finding.help(format!("known here are {}", list(&known)));
                // Whatever was meant may be the key that seems to be missing.
                self.incomplete = true;
            }
            self.lower.report(finding);
        }
    }

    fn report_missing(&mut self, what: &str, head: Span) {
        if self.incomplete {
            return;
        }
        for field in self.all_fields().filter(|field| field.required) {
            if self.entries.iter().all(|(key, _)| *key != field.key) {
                self.lower.report(
                    Finding::fault(slug::KEY_MISSING, head, format!("{what} lacks `{}`", field.key))
                        .help(format!("add `{}:` ({})", field.key, field.meaning)),
                );
            }
        }
    }

    fn field(&self, key: &str) -> Option<&'static Field> {
        self.all_fields().find(|field| field.key == key)
    }

    /// Whether the key was written at all.
    pub(super) fn has(&self, key: &str) -> bool {
        self.entries.iter().any(|(known, _)| *known == key)
    }

    /// The place of a key's word.
    pub(super) fn key_span(&self, key: &str) -> Option<Span> {
        self.entries
            .iter()
            .find(|(known, _)| *known == key)
            .map(|(_, entry)| entry.key.span)
    }

    /// The raw value of a key, empty or not.
    pub(super) fn raw(&self, key: &str) -> Option<&'n Node> {
        self.entries
            .iter()
            .find(|(known, _)| *known == key)
            .map(|(_, entry)| &entry.value)
    }

    /// The value of a key; a key without a value is a finding.
    pub(super) fn node(&mut self, key: &str) -> Option<&'n Node> {
        let entry = self
            .entries
            .iter()
            .find(|(known, _)| *known == key)
            .map(|(_, entry)| *entry)?;
        if entry.value.kind == NodeKind::Empty {
            self.lower.report(
                Finding::fault(
                    slug::VALUE_MISSING,
                    entry.key.span,
                    format!("`{}` has no value", entry.key.value),
                )
                .help("write the value after the colon, or leave the key out"),
            );
            return None;
        }
        Some(&entry.value)
    }

    /// Each item of a list as `read` reads it, without those that cannot be read; one value stands for a list of one.
    pub(super) fn items<T>(
        &mut self,
        key: &str,
        mut read: impl FnMut(&mut Lower, &'n Node) -> Option<T>,
    ) -> Vec<T> {
        let items = self.node(key).map_or(&[][..], Node::items);
        items.iter().filter_map(|item| read(self.lower, item)).collect()
    }

    /// The entries of a map with keys of the author's own; a finding where it is none. `wanted` says what they are, of
    /// which `example` is a line.
    pub(super) fn free(&mut self, key: &str, wanted: &str, example: &str) -> &'n [Entry] {
        let Some(node) = self.node(key) else {
            return &[];
        };
        if node.entries().is_none() && node.kind != NodeKind::Broken {
            self.lower.report(
                Finding::fault(
                    slug::VALUE_SHAPE,
                    node.span,
                    format!("`{key}` wants {wanted}, this is {}", node.shape()),
                )
                .help(format!("write one a line, such as `{example}`")),
            );
        }
        node.entries().unwrap_or_default()
    }

    /// Reads a key's value with `read`: absent, broken or there.
    pub(super) fn slot<T>(
        &mut self,
        key: &str,
        read: impl FnOnce(&mut Lower, &'n Node) -> Option<T>,
    ) -> Slot<T> {
        if !self.has(key) {
            return Slot::Absent;
        }
        // Amounts keep the evidence that they are given with; what has its own reading is read from the bare value.
        let own = matches!(
            self.field(key),
            Some(Field {
                shape: Shape::Own(_),
                ..
            })
        );
        let node = match self.node(key) {
            Some(node) if own => self.lower.bare(node),
            node => node,
        };
        Slot::read(node.and_then(|node| read(self.lower, node)))
    }

    /// How sure the value of a key is that has its own reading, where that is said.
    pub(super) fn evidence(&self, key: &str) -> Option<Evidence> {
        let (_, entry) = self.entries.iter().find(|(known, _)| *known == key)?;
        Evidence::from_word(entry.value.get("evidence")?.text()?.trim())
    }

    /// An amount of the dimensions that the key's table row names.
    pub(super) fn figure(&mut self, key: &str) -> Slot<Figure> {
        let Some(Field {
            shape: Shape::Amount(dimensions),
            ..
        }) = self.field(key)
        else {
            return Slot::Absent;
        };
        self.slot(key, |lower, node| lower.figure(node, dimensions))
    }

    /// Words.
    pub(super) fn text(&mut self, key: &str) -> Slot<Spanned<String>> {
        self.slot(key, text)
    }

    /// A list of words; one stands for a list of one.
    pub(super) fn texts(&mut self, key: &str) -> Vec<Spanned<String>> {
        self.items(key, text)
    }

    /// One of the words that the key's table row names.
    pub(super) fn word(&mut self, key: &str) -> Slot<Spanned<&'static str>> {
        let Some(Field {
            shape: Shape::Word(words),
            ..
        }) = self.field(key)
        else {
            return Slot::Absent;
        };
        self.slot(key, |lower, node| lower.word(node, words))
    }

    /// The id of a block of the kinds that the key's table row names.
    pub(super) fn reference(&mut self, key: &str) -> Slot<Spanned<String>> {
        let Some(Field {
            shape: Shape::Reference(kinds),
            ..
        }) = self.field(key)
        else {
            return Slot::Absent;
        };
        self.slot(key, |lower, node| lower.reference(node, kinds))
    }

    /// A list of ids.
    pub(super) fn references(&mut self, key: &str) -> Vec<Spanned<String>> {
        let Some(Field {
            shape: Shape::List(Shape::Reference(kinds)),
            ..
        }) = self.field(key)
        else {
            return Vec::new();
        };
        self.items(key, |lower, item| lower.reference(item, kinds))
    }

    /// A date.
    pub(super) fn when(&mut self, key: &str) -> Slot<Spanned<When>> {
        self.slot(key, Lower::when)
    }

    /// `yes` or `no`.
    pub(super) fn yes_no(&mut self, key: &str) -> Slot<Spanned<bool>> {
        self.slot(key, Lower::yes_no)
    }

    /// A whole number.
    pub(super) fn whole(&mut self, key: &str) -> Slot<Spanned<u32>> {
        self.slot(key, Lower::whole)
    }

    /// Whether parts of this map could not be told, so that nothing may be concluded from what is not there.
    pub(super) fn incomplete(&self) -> bool {
        self.incomplete
    }

    /// Where a missing key of this map is reported.
    pub(super) fn head(&self) -> Span {
        self.head
    }

    /// The place of the whole map.
    pub(super) fn node_span(&self) -> Span {
        self.span
    }

    /// Each item of a list of maps, by the fields that the key's table row names.
    pub(super) fn maps<T>(
        &mut self,
        key: &'static str,
        mut read: impl FnMut(&mut Keys<'_, 'n>) -> T,
    ) -> Vec<T> {
        let Some(Field {
            shape: Shape::List(Shape::Map(fields)),
            ..
        }) = self.field(key)
        else {
            return Vec::new();
        };
        let Some(node) = self.node(key) else {
            return Vec::new();
        };
        let mut found = Vec::new();
        for item in node.items() {
            let what = format!("an entry of `{key}`");
            if let Some(mut keys) = Keys::open(
                self.lower,
                &what,
                item.span.head(),
                item,
                fields,
                &[],
                self.incomplete,
            ) {
                found.push(read(&mut keys));
            }
        }
        found
    }

    /// A map within this one, by the fields that the key's table row names.
    pub(super) fn map<T>(&mut self, key: &'static str, read: impl FnOnce(&mut Keys<'_, 'n>) -> T) -> Slot<T> {
        let Some(Field {
            shape: Shape::Map(fields),
            ..
        }) = self.field(key)
        else {
            return Slot::Absent;
        };
        let head = self.key_span(key);
        let incomplete = self.incomplete;
        self.slot(key, |lower, node| {
            let head = head.unwrap_or(node.span);
            Keys::open(lower, &format!("`{key}`"), head, node, fields, &[], incomplete)
                .map(|mut keys| read(&mut keys))
        })
    }
}
