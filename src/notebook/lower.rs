//! From YAML nodes to typed values, strictly: every key known, every amount of the right dimension, every mistake at its
//! own word, all of them at once.

use jiff::tz::TimeZone;

use crate::finding::{Finding, slug};
use crate::source::{Span, Spanned};
use crate::syntax::{Entry, Node, NodeKind};
use crate::units::{self, Amount, Dimension, Style};

use super::Kind;
use super::date::{self, When};
use super::field::{Field, Shape};
use super::ingredient::Form;
use super::nearest;
use super::slot::Slot;
use super::words::Evidence;

/// A figure: an amount with its place and how sure it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// The amount.
    pub amount: Amount,
    /// Where it was written.
    pub span: Span,
    /// How sure it is, where that was said.
    pub evidence: Option<Evidence>,
    /// What it was read from, where that was said.
    pub read_from: Option<String>,
}

impl std::ops::Deref for Figure {
    type Target = Amount;
    fn deref(&self) -> &Amount {
        &self.amount
    }
}

/// A reference to another block, still to be looked up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Pending {
    pub(super) id: Spanned<String>,
    pub(super) kinds: &'static [Kind],
}

/// What lowering needs to know of the notebook, and what it gathers.
#[derive(Debug)]
pub(super) struct Lower {
    pub(super) style: Style,
    pub(super) zone: Option<TimeZone>,
    pub(super) findings: Vec<Finding>,
    pub(super) pending: Vec<Pending>,
    /// The first date that needed the notebook's zone, where it names none.
    pub(super) zoneless: Option<Span>,
    /// Ids that cannot be ids, as written: references to them are no mistake of their own.
    pub(super) misnamed: Vec<String>,
}

/// The keys of an amount that says how sure it is.
pub(super) const FIGURE: &[Field] = &[
    Field::required("value", Shape::Own("the amount"), "the amount itself"),
    Field::new("evidence", Shape::Word(Evidence::WORDS), "how sure it is"),
    Field::new("read from", Shape::Text, "where it was read"),
];

impl Lower {
    pub(super) fn new(style: Style, zone: Option<TimeZone>) -> Self {
        Self {
            style,
            zone,
            findings: Vec::new(),
            pending: Vec::new(),
            zoneless: None,
            misnamed: Vec::new(),
        }
    }

    pub(super) fn report(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    /// Whether a free key has no value, which is then reported at the key.
    pub(super) fn is_empty(&mut self, entry: &Entry, wanted: &str) -> bool {
        let empty = entry.value.kind == NodeKind::Empty;
        if empty {
            self.report(
                Finding::fault(
                    slug::VALUE_MISSING,
                    entry.key.span,
                    format!("`{}` has no value", entry.key.value),
                )
                .help(format!("write {wanted} after the colon")),
            );
        }
        empty
    }

    /// The text of a scalar; a finding for anything else.
    pub(super) fn scalar<'n>(&mut self, node: &'n Node, wanted: &str) -> Option<&'n str> {
        match &node.kind {
            NodeKind::Scalar { text, .. } => Some(text),
            NodeKind::Broken => None,
            NodeKind::Empty => {
                self.report(Finding::fault(
                    slug::VALUE_MISSING,
                    node.span,
                    format!("{} wanted here", with_verb(wanted)),
                ));
                None
            }
            _ => {
                let message = format!("{} wanted here, this is {}", with_verb(wanted), node.shape());
                self.report(
                    Finding::fault(slug::VALUE_SHAPE, node.span, message)
                        .help("write one value on the key's line, without brackets or keys of its own"),
                );
                None
            }
        }
    }

    /// A piece of a scalar's text as an amount of one of `dimensions`.
    pub(super) fn amount_in(
        &mut self,
        node: &Node,
        range: std::ops::Range<usize>,
        dimensions: &[Dimension],
    ) -> Option<Spanned<Amount>> {
        let text = node.text()?.get(range.clone())?;
        match units::parse(text, dimensions, self.style) {
            Ok(amount) => Some(Spanned::new(amount, node.within(&range))),
            Err(mistake) => {
                let at = range.start + mistake.at.start..range.start + mistake.at.end;
                self.report_mistake(node, &at, mistake);
                None
            }
        }
    }

    /// Turns a mistake in an amount into a finding at its exact word.
    pub(super) fn report_mistake(
        &mut self,
        node: &Node,
        at: &std::ops::Range<usize>,
        mistake: units::Mistake,
    ) {
        let span = node.within(at);
        let mut finding = Finding::fault(mistake.rule, span, mistake.message).maybe_help(mistake.help);
        if let Some(instead) = mistake.instead {
            finding = finding.replace(span, instead);
        }
        self.report(finding);
    }

    /// A whole scalar as an amount.
    pub(super) fn amount(&mut self, node: &Node, dimensions: &[Dimension]) -> Option<Spanned<Amount>> {
        let wanted = dimensions
            .first()
            .map_or("an amount", |dimension| dimension.with_article());
        let text = self.scalar(node, wanted)?;
        self.amount_in(node, 0..text.len(), dimensions)
    }

    /// An amount, or a map of an amount with its evidence.
    pub(super) fn figure(&mut self, node: &Node, dimensions: &[Dimension]) -> Option<Figure> {
        if node.entries().is_none() {
            let amount = self.amount(node, dimensions)?;
            return Some(Figure {
                span: amount.span,
                amount: amount.value,
                evidence: None,
                read_from: None,
            });
        }
        let mut keys = Keys::open(self, "a figure", node.span, node, FIGURE, &[], false)?;
        let evidence = keys
            .word("evidence")
            .get()
            .and_then(|word| Evidence::from_word(word.value));
        let read_from = keys.text("read from").get().map(|text| text.value.clone());
        let value = keys.node("value")?;
        let amount = keys.lower.amount(value, dimensions)?;
        Some(Figure {
            span: amount.span,
            amount: amount.value,
            evidence,
            read_from,
        })
    }

    /// The value of a figure that is given as a map with its evidence; any other node is a value itself.
    pub(super) fn bare<'n>(&mut self, node: &'n Node) -> Option<&'n Node> {
        if node.get("value").is_none() {
            return Some(node);
        }
        let mut keys = Keys::open(self, "a figure", node.span, node, FIGURE, &[], false)?;
        keys.word("evidence");
        keys.text("read from");
        keys.node("value")
    }

    /// One of a closed set of words.
    pub(super) fn word(
        &mut self,
        node: &Node,
        words: &'static [&'static str],
    ) -> Option<Spanned<&'static str>> {
        let text = self.scalar(node, "a word")?.trim();
        let found = words.iter().find(|word| **word == text).or_else(|| {
            let folded = nearest::fold(text);
            words.iter().find(|word| nearest::fold(word) == folded)
        });
        if let Some(word) = found {
            return Some(Spanned::new(*word, node.span));
        }
        let mut finding = Finding::fault(
            slug::WORD_UNKNOWN,
            node.span,
            format!("`{text}` is not one of the words known here"),
        );
        match nearest(text, words.iter().copied()) {
            Some(word) => {
                finding = finding
                    .help(format!("did you mean `{word}`? known are {}", list(words)))
                    .replace(node.span, word);
            }
            None => finding = finding.help(format!("known are {}", list(words))),
        }
        self.report(finding);
        None
    }

    /// The id of a block of one of `kinds`; looked up when all blocks are known.
    pub(super) fn reference(&mut self, node: &Node, kinds: &'static [Kind]) -> Option<Spanned<String>> {
        let wanted = match kinds {
            [kind] => format!("the id of {}", kind.with_article()),
            _ => "the id of a block".to_owned(),
        };
        let text = self.scalar(node, &wanted)?.trim();
        let id = Spanned::new(text.trim_start_matches('#').to_owned(), node.span);
        self.pending.push(Pending {
            id: id.clone(),
            kinds,
        });
        Some(id)
    }

    /// A date, with or without a time of day.
    pub(super) fn when(&mut self, node: &Node) -> Option<Spanned<When>> {
        let text = self.scalar(node, "a date")?;
        let read = date::read(text, self.zone.as_ref());
        if let Some(mistake) = read.mistake {
            let span = node.within(&mistake.at);
            self.report(
                Finding::new(mistake.rule, mistake.grade, span, mistake.message).maybe_help(mistake.help),
            );
        }
        if read.needs_zone {
            self.zoneless.get_or_insert(node.span);
        }
        read.when.map(|when| Spanned::new(when, node.span))
    }

    /// `yes` or `no`.
    pub(super) fn yes_no(&mut self, node: &Node) -> Option<Spanned<bool>> {
        let word = self.word(node, &["yes", "no"])?;
        Some(Spanned::new(word.value == "yes", word.span))
    }

    /// A whole number from 0.
    pub(super) fn whole(&mut self, node: &Node) -> Option<Spanned<u32>> {
        let text = self.scalar(node, "a whole number")?.trim();
        match text.parse::<u32>() {
            Ok(number) if number <= 1_000_000 => Some(Spanned::new(number, node.span)),
            _ => {
                let message = format!("a whole number is wanted here, this is `{text}`");
                self.report(
                    Finding::fault(slug::VALUE_SHAPE, node.span, message).help("write a number such as `12`"),
                );
                None
            }
        }
    }
}

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
            let near = nearest(&key.value, self.all_fields().map(|field| field.key));
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
        let Some(node) = self.has(key).then(|| self.node(key)).flatten() else {
            return Vec::new();
        };
        node.items()
            .iter()
            .filter_map(|item| text(self.lower, item))
            .collect()
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
        let Some(node) = self.has(key).then(|| self.node(key)).flatten() else {
            return Vec::new();
        };
        node.items()
            .iter()
            .filter_map(|item| self.lower.reference(item, kinds))
            .collect()
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
        let Some(node) = self.has(key).then(|| self.node(key)).flatten() else {
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

/// `a date is`, but `words are`.
fn with_verb(wanted: &str) -> String {
    let verb = if wanted == "words" { "are" } else { "is" };
    format!("{wanted} {verb}")
}

/// A scalar as words.
pub(super) fn text(lower: &mut Lower, node: &Node) -> Option<Spanned<String>> {
    let words = lower.scalar(node, "words")?;
    Some(Spanned::new(words.trim_end().to_owned(), node.span))
}

/// `a`, `b` or `c`, in backticks.
pub(super) fn list(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
        None => String::new(),
    }
}

/// A name, its amount, and what was said after the amount.
pub(super) type Named = (Spanned<String>, Figure, Option<String>);

/// Free keys with amounts: materials of a bath, contents of a material, expected facts.
pub(super) fn materials(keys: &mut Keys<'_, '_>, key: &str, dimensions: &[Dimension]) -> Vec<Named> {
    let Some(node) = keys.has(key).then(|| keys.node(key)).flatten() else {
        return Vec::new();
    };
    let Some(entries) = node.entries() else {
        if node.kind != NodeKind::Broken {
            keys.lower.report(
                Finding::fault(
                    slug::VALUE_SHAPE,
                    node.span,
                    format!("`{key}` wants names with amounts, this is {}", node.shape()),
                )
                .help("write one a line, such as `borax: 2 g`"),
            );
        }
        return Vec::new();
    };
    let mut found = Vec::with_capacity(entries.len());
    let mut entries = entries.iter().peekable();
    while let Some(entry) = entries.next() {
        let mut name = entry.key.clone();
        let mut entry = entry;
        if entry.value.kind == NodeKind::Empty
            && let Some(next) = entries.next_if(|next| is_rest_of_name(entry, next))
        {
            name = Spanned::new(
                format!("{}, {}", name.value, next.key.value),
                name.span.to(next.key.span),
            );
            entry = next;
        }
        if entry.value.kind == NodeKind::Empty {
            keys.lower.report(
                Finding::fault(
                    slug::VALUE_MISSING,
                    entry.key.span,
                    format!("`{}` has no amount", entry.key.value),
                )
                .help("write the amount after the colon, such as `2 g`"),
            );
            continue;
        }
        if let Some((figure, remark)) = amount_and_remark(keys.lower, &entry.value, dimensions) {
            found.push((name, figure, remark));
        }
    }
    found
}

/// Whether `next` is what belongs behind the comma of a material's name: within braces, YAML takes
/// `{citric acid, anhydrous: 8 g}` and `{vinegar, 5 %: 200 ml}` for two keys each.
fn is_rest_of_name(entry: &Entry, next: &Entry) -> bool {
    let (before, after) = (entry.key.span, next.key.span);
    let adjacent = before.end < after.start && after.start - before.end <= 2;
    let word = next.key.value.trim();
    adjacent && (Form::WORDS.contains(&word) || word.starts_with(|c: char| c.is_ascii_digit()))
}

/// `30 g`, or `30 g, crushed`: what follows a comma and a space is the author's remark.
fn amount_and_remark(
    lower: &mut Lower,
    node: &Node,
    dimensions: &[Dimension],
) -> Option<(Figure, Option<String>)> {
    if let Some((at, text)) = node.text().and_then(|text| text.find(", ").map(|at| (at, text))) {
        let amount = lower.amount_in(node, 0..at, dimensions)?;
        let figure = Figure {
            span: amount.span,
            amount: amount.value,
            evidence: None,
            read_from: None,
        };
        return Some((figure, text.get(at + 2..).map(|remark| remark.trim().to_owned())));
    }
    lower.figure(node, dimensions).map(|figure| (figure, None))
}
