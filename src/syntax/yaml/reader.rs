//! The parser's events to [`Node`]s, going on after each mistake.

use std::borrow::Cow;

use granit_parser::{Event, Parser, ScalarStyle, ScanError, options};

use crate::finding::{Finding, slug};
use crate::source::{OffsetMap, Span, Spanned};

use super::super::node::{Entry, Node, NodeKind};
use super::scan_error::{explain, wants_closing};
use super::{Document, NESTING};

/// Reads all of a text, going on after each mistake. `mended` says that open quotes have been taken out, each with an
/// alias in its place.
pub(super) fn read_all(text: &str, map: &OffsetMap, mended: bool, findings: &mut Vec<Finding>) -> Document {
    let mut reader = Reader {
        text,
        map,
        base: 0,
        findings,
        anchored: mended,
        parted: false,
        broken: mended,
    };
    let mut node = reader.read(text.len());
    // After a mistake, go on at the next line that starts a key at the left edge.
    let mut from = reader.base;
    while let Some(stop) = reader.resume_after(from) {
        reader.base = stop;
        let next = reader.read(text.len());
        reader.append(&mut node, next);
        from = reader.base;
    }
    let broken = reader.broken;
    Document { node, broken }
}

struct Reader<'t, 'f> {
    text: &'t str,
    map: &'t OffsetMap,
    /// Where in `text` the parser was started; moved to the place of an error when there is one.
    base: usize,
    findings: &'f mut Vec<Finding>,
    anchored: bool,
    parted: bool,
    broken: bool,
}

/// A container that is still open.
enum Open {
    Map {
        entries: Vec<Entry>,
        key: Option<Key>,
        start: usize,
    },
    List {
        items: Vec<Node>,
        start: usize,
    },
}

impl Open {
    fn start(&self) -> usize {
        match self {
            Self::Map { start, .. } | Self::List { start, .. } => *start,
        }
    }

    /// Whether it began with a bracket, and so wants a closing one.
    fn is_bracketed(&self, text: &str) -> bool {
        text.get(self.start()..)
            .is_some_and(|rest| rest.starts_with(['[', '{']))
    }
}

/// A key that waits for its value. One that is not a plain word takes its value with it.
enum Key {
    Word(Spanned<String>),
    Unusable,
}

impl Reader<'_, '_> {
    fn span(&self, range: std::ops::Range<usize>) -> Span {
        self.map.span(self.base + range.start, self.base + range.end)
    }

    /// Parses from `base`. On a mistake, what was read so far is closed and kept and `base` moves to the mistake.
    fn read(&mut self, end: usize) -> Node {
        let text = self.text.get(self.base..end).unwrap_or("");
        let parser = Parser::new_from_str_with_options(
            text,
            options! {
                emit_comments: false,
                emit_unresolved_aliases: true,
                flow_nesting_limit: NESTING,
                block_nesting_limit: NESTING,
            },
        );
        let mut stack: Vec<Open> = Vec::new();
        let mut root: Option<Node> = None;
        let mut documents = 0;
        let mut second = None;
        let mut last_scalar = usize::MAX;
        let mut last = 0;
        let mut error = None;
        for event in parser {
            let (event, place) = match event {
                Ok(event) => event,
                Err(mistake) => {
                    error = Some(mistake);
                    break;
                }
            };
            let range = place.byte_range().unwrap_or(last..last);
            let node = match event {
                Event::DocumentStart(..) => {
                    documents += 1;
                    if documents == 2 {
                        second = Some(range.start);
                        self.report_second_document(range);
                        break;
                    }
                    continue;
                }
                Event::Scalar(value, style, anchor, tag) => {
                    self.refuse_marks(anchor > 0, tag.is_some(), &range);
                    last = range.end;
                    last_scalar = range.end;
                    self.scalar(text, value, style, range)
                }
                Event::Alias(_) | Event::UnresolvedAlias(_) => {
                    self.refuse_alias(&range);
                    Node {
                        span: self.span(range),
                        kind: NodeKind::Broken,
                    }
                }
                Event::MappingStart(_, anchor, tag) => {
                    self.refuse_marks(anchor > 0, tag.is_some(), &range);
                    stack.push(Open::Map {
                        entries: Vec::new(),
                        key: None,
                        start: range.start,
                    });
                    continue;
                }
                Event::SequenceStart(_, anchor, tag) => {
                    self.refuse_marks(anchor > 0, tag.is_some(), &range);
                    stack.push(Open::List {
                        items: Vec::new(),
                        start: range.start,
                    });
                    continue;
                }
                Event::MappingEnd | Event::SequenceEnd => {
                    last = last.max(range.end.min(text.trim_end().len()));
                    match stack.pop() {
                        Some(open) => self.close(open, last),
                        None => continue,
                    }
                }
                _ => continue,
            };
            self.place(&mut stack, &mut root, node);
        }
        let bracket = stack.iter().find(|open| open.is_bracketed(text)).map(Open::start);
        let stopped = error.map(|mistake| self.report(&mistake, text, bracket));
        if let Some(at) = stopped
            && text
                .get(last_scalar..at)
                .is_some_and(|between| !between.contains('\n'))
        {
            cut_short(&mut stack);
        }
        let stopped = stopped.or(second);
        while let Some(open) = stack.pop() {
            let bracketed = open.is_bracketed(text);
            let mut node = self.close(open, last);
            if bracketed {
                node.kind = NodeKind::Broken;
            }
            self.place(&mut stack, &mut root, node);
        }
        let node = root.unwrap_or_else(|| Node {
            span: self.span(0..0),
            kind: NodeKind::Empty,
        });
        match stopped {
            Some(at) => self.base += at,
            None => self.base = end,
        }
        node
    }

    fn scalar(
        &self,
        text: &str,
        value: Cow<'_, str>,
        style: ScalarStyle,
        range: std::ops::Range<usize>,
    ) -> Node {
        let plain = style == ScalarStyle::Plain;
        if plain && (range.is_empty() || value == "~") {
            return Node {
                span: self.span(range.start..range.start),
                kind: NodeKind::Empty,
            };
        }
        let quoted = matches!(style, ScalarStyle::SingleQuoted | ScalarStyle::DoubleQuoted);
        let inner = if quoted {
            range.start + 1..range.end.saturating_sub(1)
        } else {
            range.clone()
        };
        let exact = text.get(inner.clone()) == Some(value.as_ref());
        let span = if exact {
            self.span(inner)
        } else {
            self.span(trimmed(text, range))
        };
        Node {
            span,
            kind: NodeKind::Scalar {
                text: value.into_owned(),
                exact,
            },
        }
    }

    fn close(&mut self, open: Open, end: usize) -> Node {
        match open {
            Open::Map { entries, start, .. } => Node {
                span: self.span(start..end.max(start)),
                kind: NodeKind::Map(with_decimal_commas(entries)),
            },
            Open::List { items, start } => Node {
                span: self.span(start..end.max(start)),
                kind: NodeKind::List(items),
            },
        }
    }

    /// Puts a finished node where it belongs: as a key, a value, an item or the whole.
    fn place(&mut self, stack: &mut [Open], root: &mut Option<Node>, node: Node) {
        match stack.last_mut() {
            None => *root = Some(node),
            Some(Open::List { items, .. }) => items.push(node),
            Some(Open::Map { entries, key, .. }) => match key.take() {
                None => *key = Some(self.key(node)),
                Some(Key::Unusable) => {}
                Some(Key::Word(word)) => self.add_entry(entries, word, node),
            },
        }
    }

    fn key(&mut self, node: Node) -> Key {
        match node.kind {
            NodeKind::Scalar { text, .. } => Key::Word(Spanned::new(text, node.span)),
            NodeKind::Broken => Key::Unusable,
            _ => {
                self.broken = true;
                self.findings.push(
                    Finding::fault(slug::YAML_BROKEN, node.span, "a key must be a word")
                        .help("write the key as plain words before the colon, such as `makes: 1 l`"),
                );
                Key::Unusable
            }
        }
    }

    fn add_entry(&mut self, entries: &mut Vec<Entry>, key: Spanned<String>, value: Node) {
        if let Some(first) = entries.iter().find(|entry| entry.key.value == key.value) {
            let message = format!("`{}` is written twice", key.value);
            self.findings.push(
                Finding::fault(slug::KEY_REPEATED, key.span, message)
                    .help("keep one of the two")
                    .relate(first.key.span, "first written here"),
            );
            return;
        }
        entries.push(Entry { key, value });
    }

    /// Joins what was read after a mistake to what was read before it.
    fn append(&mut self, node: &mut Node, more: Node) {
        match (&mut node.kind, more.kind) {
            (NodeKind::Map(entries), NodeKind::Map(added)) => {
                for entry in added {
                    self.add_entry(entries, entry.key, entry.value);
                }
                node.span = node.span.to(more.span);
            }
            (NodeKind::Empty, kind) => {
                *node = Node {
                    span: more.span,
                    kind,
                }
            }
            _ => {}
        }
    }

    /// The start of the next line after `from` that begins a key at the left edge, if the text broke at `from`.
    fn resume_after(&self, from: usize) -> Option<usize> {
        let rest = self.text.get(from..)?;
        let mut at = from + rest.find('\n')? + 1;
        for line in self.text.get(at..)?.split_inclusive('\n') {
            let begins = line.chars().next().is_some_and(char::is_alphanumeric);
            if begins && line.contains(':') {
                return Some(at);
            }
            at += line.len();
        }
        None
    }

    /// One finding for all anchors, aliases and tags of a block: they come from one idea.
    fn refuse_alias(&mut self, range: &std::ops::Range<usize>) {
        self.refuse_marks(true, false, range);
    }

    fn refuse_marks(&mut self, anchor: bool, tag: bool, range: &std::ops::Range<usize>) {
        if !(anchor || tag) || self.anchored {
            return;
        }
        let range = self.mark_before(range, if anchor { '&' } else { '!' });
        self.anchored = true;
        self.broken = true;
        let (what, help) = if anchor {
            (
                "anchors and aliases (`&name`, `*name`) are not used in notebooks",
                "write the value out where it is needed",
            )
        } else {
            (
                "type marks (`!name`) are not used in notebooks",
                "write the value alone",
            )
        };
        self.findings
            .push(Finding::fault(slug::YAML_ANCHOR, self.span(range), what).help(help));
    }

    /// The mark itself: the parser's place is that of the value after it. An alias is a mark and its own place.
    fn mark_before(&self, value: &std::ops::Range<usize>, sign: char) -> std::ops::Range<usize> {
        let text = self.text.get(self.base..).unwrap_or("");
        if text.get(value.start..).is_some_and(|rest| rest.starts_with('*')) {
            return value.clone();
        }
        let Some(start) = text.get(..value.start).and_then(|before| before.rfind(sign)) else {
            return value.clone();
        };
        let length = text
            .get(start..)
            .and_then(|rest| rest.find(char::is_whitespace))
            .unwrap_or(1);
        start..start + length
    }

    fn report_second_document(&mut self, range: std::ops::Range<usize>) {
        self.broken = true;
        if self.parted {
            return;
        }
        self.parted = true;
        self.findings.push(
            Finding::fault(
                slug::YAML_BROKEN,
                self.span(range),
                "a block holds one set of keys: `---` or `...` ends it",
            )
            .help("take it out, or open a second block"),
        );
    }

    /// Turns a scanner's error into a finding and returns its place in `text`.
    /// Within brackets that are still open, some errors are only where the scanner noticed that they never close.
    fn report(&mut self, error: &ScanError, text: &str, bracket: Option<usize>) -> usize {
        self.broken = true;
        let noticed = error.marker().byte_offset().unwrap_or(text.len()).min(text.len());
        let (at, (rule, message, help)) = match bracket {
            Some(bracket) if wants_closing(error.kind()) => (
                bracket,
                (
                    slug::YAML_BROKEN,
                    "this bracket is never closed".to_owned(),
                    "close it with `]` or `}`, or put the value in quotes",
                ),
            ),
            _ => (noticed, explain(error)),
        };
        let end = text
            .get(at..)
            .and_then(|rest| rest.chars().next())
            .map_or(at, |next| at + next.len_utf8());
        let span = if text.get(at..end).is_none_or(|c| c.trim().is_empty()) {
            self.span(at..at)
        } else {
            self.span(at..end)
        };
        self.findings.push(Finding::fault(rule, span, message).help(help));
        at
    }
}

/// `{cool: 22,5 °C}`: within braces YAML ends a value at every comma and takes `5 °C` for a key. No key of a notebook
/// begins with a digit and has no value, so the two halves belong together.
fn with_decimal_commas(entries: Vec<Entry>) -> Vec<Entry> {
    let mut joined: Vec<Entry> = Vec::with_capacity(entries.len());
    for entry in entries {
        if entry.value.kind == NodeKind::Empty
            && let Some(last) = joined.last_mut()
            && last.value.span.end + 1 == entry.key.span.start
            && entry.key.value.starts_with(|c: char| c.is_ascii_digit())
            && let NodeKind::Scalar { text, exact: true } = &mut last.value.kind
            && text.ends_with(|c: char| c.is_ascii_digit())
        {
            text.push(',');
            text.push_str(&entry.key.value);
            last.value.span = last.value.span.to(entry.key.span);
        } else {
            joined.push(entry);
        }
    }
    joined
}

/// Makes the last value broken: the mistake stands on its line, so that only a piece of it was read.
fn cut_short(stack: &mut [Open]) {
    let last = match stack.last_mut() {
        Some(Open::Map {
            entries, key: None, ..
        }) => entries.last_mut().map(|entry| &mut entry.value),
        Some(Open::List { items, .. }) => items.last_mut(),
        _ => None,
    };
    if let Some(node) = last.filter(|node| matches!(node.kind, NodeKind::Scalar { .. })) {
        node.kind = NodeKind::Broken;
    }
}

fn trimmed(text: &str, range: std::ops::Range<usize>) -> std::ops::Range<usize> {
    let kept = text
        .get(range.clone())
        .map_or(range.len(), |inside| inside.trim_end().len());
    range.start..range.start + kept
}
