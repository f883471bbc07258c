//! YAML events to [`Node`]s, gathering every mistake on the way.
//!
//! A block that breaks in one place is read on at its next top-level key, so that one forgotten quote does not hide the
//! rest of a recipe.

use std::borrow::Cow;

use granit_parser::{ErrorKind, Event, Parser, ScalarStyle, ScanError, options};

use crate::finding::{Finding, slug};
use crate::source::{OffsetMap, Span, Spanned};

use super::node::{Entry, Node, NodeKind};

/// Lists and maps inside each other, at most. The language itself needs five.
const NESTING: usize = 32;

/// A YAML text as a tree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Document {
    /// The value; [`NodeKind::Empty`] for an empty text.
    pub node: Node,
    /// Whether parts could not be read: then what is missing is no finding of its own.
    pub broken: bool,
}

/// Reads `text`, whose places in the file `map` knows.
pub fn read_yaml(text: &str, map: &OffsetMap, findings: &mut Vec<Finding>) -> Document {
    let (text, map, tabbed) = without_indenting_tabs(text, map, findings);
    let before = findings.len();
    let document = read_all(&text, &map, false, findings);
    // Whatever else does not fit on a line that was indented with tabs comes from the tabs.
    let from_tabs = |finding: &Finding| {
        let at = finding.span.start;
        finding.rule == slug::YAML_BROKEN && tabbed.iter().any(|line| line.start <= at && at < line.end)
    };
    if !tabbed.is_empty() {
        findings.retain(|finding| !from_tabs(finding));
    }
    if !document.broken {
        return document;
    }
    let quotes = open_quotes(&text);
    if quotes.is_empty() {
        return document;
    }
    // A quote without its end swallows lines until the next quote, where the parser stumbles: what is to be mended is
    // the first, and the lines between are no part of it.
    findings.truncate(before);
    for quote in &quotes {
        let line = text.get(quote.clone()).unwrap_or("");
        let twice = line.chars().skip(1).any(|c| line.starts_with(c));
        let (message, help) = if twice {
            (
                "this quote ends before the value does",
                "put the whole value in quotes of the other kind",
            )
        } else {
            ("this quote is never closed", "close the quote on the same line")
        };
        let span = map.span(quote.start, quote.start + 1);
        findings.push(Finding::fault(slug::YAML_BROKEN, span, message).help(help));
    }
    read_all(&without(&text, &quotes), &map, true, findings)
}

/// Reads all of a text, going on after each mistake. `mended` says that open quotes have been taken out, each with an
/// alias in its place.
fn read_all(text: &str, map: &OffsetMap, mended: bool, findings: &mut Vec<Finding>) -> Document {
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

/// Values that begin with a quote which is not closed as it should be, each to the end of its line.
fn open_quotes(text: &str) -> Vec<std::ops::Range<usize>> {
    let mut found = Vec::new();
    let mut at = 0;
    let mut skip_to = 0;
    for line in text.split_inclusive('\n') {
        let end = at + line.trim_end().len();
        if at >= skip_to
            && let Some((start, quote)) = opening(line).map(|(offset, quote)| (at + offset, quote))
        {
            let indent = line.len() - line.trim_start().len();
            match closing(text, start, quote, indent) {
                Some(close) => skip_to = close,
                None => found.push(start..end),
            }
        }
        at += line.len();
    }
    found
}

/// The quote that begins a line's value, and where it stands in the line.
fn opening(line: &str) -> Option<(usize, char)> {
    let value = match (line.find(": "), line.find("- ")) {
        (Some(colon), _) => colon + 2,
        (None, Some(dash)) if line.trim_start().starts_with("- ") => dash + 2,
        _ => return None,
    };
    let rest = line.get(value..)?;
    let offset = value + (rest.len() - rest.trim_start().len());
    let quote = line.get(offset..)?.chars().next()?;
    matches!(quote, '"' | '\'').then_some((offset, quote))
}

/// The end of a quote that ends well: on a line of its own value, with nothing after it.
fn closing(text: &str, start: usize, quote: char, indent: usize) -> Option<usize> {
    let inside = text.get(start + 1..)?;
    let mut escaped = false;
    let mut line_start = None;
    for (offset, c) in inside.char_indices() {
        if let Some(from) = line_start
            && c != ' '
            && c != '\n'
        {
            // Lines that go on within a quote are indented deeper than their key.
            if offset - from <= indent {
                return None;
            }
            line_start = None;
        }
        if c == '\n' {
            line_start = Some(offset + 1);
        }
        if escaped {
            escaped = false;
        } else if quote == '"' && c == '\\' {
            escaped = true;
        } else if c == quote {
            let rest = inside.get(offset + 1..).unwrap_or("");
            if quote == '\'' && rest.starts_with('\'') {
                escaped = true;
                continue;
            }
            let rest = rest.lines().next().unwrap_or("").trim_start();
            let ends = rest.is_empty() || rest.starts_with([',', ']', '}', '#', ':']);
            return ends.then_some(start + 1 + offset + 1);
        }
    }
    None
}

/// The text with something unreadable, but harmless, in the place of each quote: an alias, which becomes a broken value.
fn without(text: &str, quotes: &[std::ops::Range<usize>]) -> String {
    let mut out = text.to_owned();
    for quote in quotes {
        let length = quote.len();
        let stand_in = if length < 2 {
            "?".to_owned()
        } else {
            format!("{:<length$}", "*q")
        };
        if out.is_char_boundary(quote.start) && out.is_char_boundary(quote.end) {
            out.replace_range(quote.clone(), &stand_in);
        }
    }
    out
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

/// Whether an error within open brackets only means that they do not close.
fn wants_closing(kind: &ErrorKind) -> bool {
    matches!(
        kind,
        ErrorKind::InvalidColonPlacement
            | ErrorKind::InvalidFlowScalarIndent
            | ErrorKind::UnclosedFlowCollection { .. }
            | ErrorKind::ExpectedFlowMappingSeparator
            | ErrorKind::ExpectedFlowSequenceSeparator
            | ErrorKind::UnexpectedEof
            | ErrorKind::UnexpectedEofFlowSequence
            | ErrorKind::UnexpectedEofFlowMapping
            | ErrorKind::UnexpectedEofImplicitFlowMapping
    )
}

/// A scanner's error in a photographer's words.
fn explain(error: &ScanError) -> (slug::Slug, String, &'static str) {
    let (message, help) = match error.kind() {
        ErrorKind::TabInBlockIndentation | ErrorKind::TabInIndentation | ErrorKind::TabNotAllowed => {
            let message = "a tab stands in the indent".to_owned();
            return (
                slug::YAML_TAB,
                message,
                "indent with spaces: tabs have no agreed width",
            );
        }
        ErrorKind::RecursionLimitExceeded => {
            let message = format!("lists and keys are nested more than {NESTING} deep");
            let help = "write it flatter: the language needs five levels at most";
            return (slug::YAML_TOO_DEEP, message, help);
        }
        ErrorKind::UnexpectedCharacter { character } if character.is_control() => (
            "a control character stands here, which no editor shows",
            "delete it and type the value again",
        ),
        ErrorKind::UnexpectedCharacter { character: '`' } => {
            ("a value cannot begin with a back-tick", "put the value in quotes")
        }
        ErrorKind::UnexpectedCharacter { character } => {
            let message = format!("a value cannot begin with `{character}`");
            return (slug::YAML_BROKEN, message, "put the value in quotes");
        }
        ErrorKind::MappingValueNotAllowed => (
            "a second `:` on the line, or a key that is indented differently from its neighbours",
            "put text that holds `: ` in quotes, and start keys that belong together in the same column",
        ),
        ErrorKind::UnclosedQuotedScalar => ("this quote is never closed", "close the quote on the same line"),
        ErrorKind::SimpleKeyExpected | ErrorKind::InvalidSimpleKey => (
            "there is no key here: a colon with a space after it is missing",
            "write it as `key: value`, or indent it under the key that it belongs to",
        ),
        ErrorKind::ExpectedBlockMappingKey
        | ErrorKind::ExpectedBlockSequenceEntry
        | ErrorKind::InvalidIndentation => (
            "the indent does not fit the lines above",
            "start keys that belong together, and the dashes of one list, in the same column",
        ),
        ErrorKind::BlockSequenceEntryNotAllowed
        | ErrorKind::BlockEntryInFlowCollection
        | ErrorKind::InvalidBlockEntryWhitespace => (
            "a list cannot begin here",
            "start the list on the line after its key, or put the value in quotes",
        ),
        ErrorKind::InvalidBlockScalarHeader
        | ErrorKind::ZeroBlockScalarIndent
        | ErrorKind::InvalidBlockScalarIndent => (
            "after `|` or `>` the text begins on the next line",
            "start a new line there, or put the value in quotes",
        ),
        ErrorKind::MisplacedFlowCollectionEnd | ErrorKind::MismatchedFlowCollectionEnd { .. } => (
            "a closing bracket without its opening one",
            "take it out, or put the value in quotes",
        ),
        ErrorKind::UnclosedFlowCollection { .. } => {
            ("this bracket is never closed", "close it with `]` or `}`")
        }
        ErrorKind::UnknownQuotedScalarEscape | ErrorKind::InvalidQuotedScalarHexEscape => (
            "in double quotes a backslash changes the sign after it, and this one it cannot",
            "write two backslashes, or use single quotes",
        ),
        ErrorKind::DirectiveDisallowed
        | ErrorKind::MissingDocumentEndBeforeDirective
        | ErrorKind::InvalidDirectiveName => ("a line cannot begin with `%`", "put the value in quotes"),
        _ => (
            "this cannot be read",
            "check the indent and the punctuation of this line and the one before it",
        ),
    };
    (slug::YAML_BROKEN, message.to_owned(), help)
}

fn trimmed(text: &str, range: std::ops::Range<usize>) -> std::ops::Range<usize> {
    let kept = text
        .get(range.clone())
        .map_or(range.len(), |inside| inside.trim_end().len());
    range.start..range.start + kept
}

/// Reports the first tab in an indent and puts spaces for each, as many as fit the lines above, so that the rest can be
/// read. Also returns the lines that had some.
fn without_indenting_tabs<'t>(
    text: &'t str,
    map: &'t OffsetMap,
    findings: &mut Vec<Finding>,
) -> (Cow<'t, str>, Cow<'t, OffsetMap>, Vec<Span>) {
    if !text.contains('\t') {
        return (Cow::Borrowed(text), Cow::Borrowed(map), Vec::new());
    }
    let mut spaced = String::with_capacity(text.len() + 16);
    let mut moved = OffsetMap::new(map.file(), map.span(0, 0).start as usize);
    let mut first = None;
    let mut tabbed = Vec::new();
    let mut at = 0;
    let mut widths = TabWidths::default();
    for line in text.split_inclusive('\n') {
        let indent = line.len() - line.trim_start_matches([' ', '\t']).len();
        let blank = line.trim().is_empty();
        let tab = line.bytes().take(indent).position(|byte| byte == b'\t');
        if let Some(tab) = tab.filter(|_| !blank) {
            tabbed.push(map.span(at, at + line.len()));
            first.get_or_insert(map.span(at + tab, at + tab + 1));
        }
        let width = if blank { indent } else { widths.of(line, indent) };
        for offset in 0..width {
            let from = at + offset.min(indent.saturating_sub(1));
            let place = map.span(from, from + 1);
            moved.push(spaced.len(), place.start as usize..place.end as usize);
            spaced.push(' ');
        }
        let rest = map.span(at + indent, at + line.len());
        moved.push(spaced.len(), rest.start as usize..rest.end as usize);
        spaced.push_str(line.get(indent..).unwrap_or(""));
        at += line.len();
    }
    if let Some(place) = first {
        findings.push(
            Finding::fault(slug::YAML_TAB, place, "a tab stands in the indent")
                .help("indent with spaces: tabs have no agreed width"),
        );
    }
    (Cow::Owned(spaced), Cow::Owned(moved), tabbed)
}

/// How many spaces an indent with tabs stands for: it must fit the lines round it, whatever the editor showed.
#[derive(Default)]
struct TabWidths<'t> {
    /// Indents with tabs since the last line without, and what they were taken for.
    seen: Vec<(&'t str, usize)>,
    /// Where the keys of the line before begin, and whether the line ends with a colon.
    keys_at: usize,
    opens: bool,
}

impl<'t> TabWidths<'t> {
    fn of(&mut self, line: &'t str, indent: usize) -> usize {
        let (lead, rest) = line.split_at_checked(indent).unwrap_or(("", line));
        let width = if !lead.contains('\t') {
            self.seen.clear();
            indent
        } else if let Some((_, width)) = self.seen.iter().find(|(known, _)| *known == lead) {
            *width
        } else {
            let plain = lead.len() + lead.bytes().filter(|byte| *byte == b'\t').count();
            let width = match (self.opens, self.seen.is_empty()) {
                (true, _) => plain.max(self.keys_at + 2),
                (false, true) => self.keys_at,
                (false, false) => plain,
            };
            self.seen.push((lead, width));
            width
        };
        let dashes = rest.len() - rest.trim_start_matches(['-', ' ']).len();
        self.keys_at = width + if rest.starts_with("- ") { dashes } else { 0 };
        self.opens = rest.trim_end().ends_with(':');
        width
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::{FileId, Sources};

    fn read(text: &str) -> (Document, Vec<(String, String)>) {
        let mut sources = Sources::default();
        let file = sources.add("b", text);
        let mut findings = Vec::new();
        let document = read_yaml(text, &OffsetMap::slice(file, 0, text.len()), &mut findings);
        let seen = findings
            .iter()
            .map(|f| (f.rule.to_string(), sources.slice(f.span).to_owned()))
            .collect();
        (document, seen)
    }

    fn found(rule: &str, word: &str) -> Vec<(String, String)> {
        vec![(rule.to_owned(), word.to_owned())]
    }

    #[test]
    fn what_follows_a_mistake_is_still_read() {
        let (document, seen) = read("title: 'Tea\nmakes: 1 l\nadd:\n  borax: 2 g\n");
        assert_eq!(seen, found("yaml-broken", "'"));
        assert_eq!(document.node.get("makes").and_then(Node::text), Some("1 l"));
        assert!(document.broken);
    }

    #[test]
    fn a_repeated_key_is_reported_at_the_second() {
        let (document, seen) = read("makes: 1 l\nmakes: 2 l\n");
        assert_eq!(seen, found("key-repeated", "makes"));
        assert_eq!(document.node.get("makes").and_then(Node::text), Some("1 l"));
    }

    #[test]
    fn tabs_are_reported_and_read() {
        let (document, seen) = read("add:\n\tborax: 2 g\n\tsalt: 1 g\n");
        assert_eq!(seen, found("yaml-tab", "\t"));
        assert_eq!(
            document
                .node
                .get("add")
                .and_then(|add| add.get("salt"))
                .and_then(Node::text),
            Some("1 g")
        );
    }

    #[test]
    fn references_between_values_are_refused_once() {
        let bomb = "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b, *b]\n";
        let (_, seen) = read(bomb);
        assert_eq!(seen.len(), 1);
        assert_eq!(seen[0].0, "yaml-anchor");
    }

    #[test]
    fn deep_nesting_is_refused() {
        let (_, seen) = read(&format!("a: {}{}", "[".repeat(5000), "]".repeat(5000)));
        assert_eq!(seen[0].0, "yaml-too-deep");
    }

    #[test]
    fn values_keep_their_text() {
        let (document, seen) = read("a: NO\nb: 012\nc: 1:30\nd:\ne: ~\n");
        assert!(seen.is_empty());
        assert_eq!(document.node.get("a").and_then(Node::text), Some("NO"));
        assert_eq!(document.node.get("b").and_then(Node::text), Some("012"));
        assert_eq!(document.node.get("c").and_then(Node::text), Some("1:30"));
        assert_eq!(
            document.node.get("d").map(|node| &node.kind),
            Some(&NodeKind::Empty)
        );
        assert_eq!(
            document.node.get("e").map(|node| &node.kind),
            Some(&NodeKind::Empty)
        );
    }

    proptest::proptest! {
        #[test]
        fn no_text_panics_and_spans_stay_inside(text in "[ -~\n\t½é:#'\"{}\\[\\]&*!|>-]{0,120}") {
            let mut findings = Vec::new();
            let document = read_yaml(&text, &OffsetMap::slice(FileId(0), 0, text.len()), &mut findings);
            proptest::prop_assert!(document.node.span.end as usize <= text.len());
            for finding in findings {
                proptest::prop_assert!(finding.span.end as usize <= text.len());
                proptest::prop_assert!(text.is_char_boundary(finding.span.start as usize));
            }
        }
    }
}
