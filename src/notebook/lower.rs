//! From YAML nodes to typed values, strictly: every amount of the right dimension, every mistake at its own word, all of
//! them at once.

use jiff::tz::TimeZone;

use crate::finding::{Finding, slug};
use crate::source::{Span, Spanned};
use crate::syntax::{Entry, Node, NodeKind};
use crate::units::{self, Amount, Dimension, Style};

use super::Kind;
use super::date::{self, When};
use super::field::{Field, Shape};
pub(super) use super::keys::Keys;
use super::nearest;
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
        let known = || words.iter().copied();
        match nearest(text, known()).or_else(|| nearest::akin(text, known())) {
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
