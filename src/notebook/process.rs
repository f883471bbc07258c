//! The `process` block: the line of baths, washes and drying.

use crate::finding::{Finding, slug};
use crate::source::{Span, Spanned};
use crate::syntax::{Entry, Node, NodeKind};
use crate::units::Amount;
use crate::units::Dimension::{Temperature, Time};

use super::Kind;
use super::field::{Field, Shape};
use super::keys::Keys;
use super::lower::{Figure, Lower, list};
use super::nearest;
use super::slot::Slot;
use super::words::{Base, StepLight, words};

words! {
    /// What is done to the sheet at a step.
    StepKind {
        /// Lies in a bath.
        Bath = "bath",
        /// A short water bath between two others.
        Rinse = "rinse",
        /// Washing.
        Wash = "wash",
        /// A bath that helps washing.
        WashAid = "wash aid",
        /// Drying.
        Dry = "dry",
    }
}

/// A `process` block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Process {
    /// The steps, in order.
    pub steps: Vec<ProcessStep>,
    /// The base it is for.
    pub paper: Slot<Spanned<&'static str>>,
    /// Pairs of hands.
    pub hands: Slot<Spanned<u32>>,
    /// Time that a move takes.
    pub move_time: Slot<Figure>,
    /// Whether a step could not be read, so that nothing may be concluded from what is not there.
    pub incomplete: bool,
}

impl Process {
    /// The base it is for, where it says a known one.
    pub fn base(&self) -> Option<Base> {
        self.paper.get().and_then(|word| Base::from_word(word.value))
    }
}

/// One step of the line.
#[derive(Debug, Clone, PartialEq)]
pub struct ProcessStep {
    /// What is done.
    pub kind: StepKind,
    /// Where that word stands.
    pub span: Span,
    /// The recipe of a bath or wash aid.
    pub bath: Slot<Spanned<String>>,
    /// What a rinse, wash or drying is done with, in words.
    pub with: Option<String>,
    /// How long.
    pub time: Slot<Spanned<Duration>>,
    /// At which temperature.
    pub temperature: Slot<Figure>,
    /// Under which light.
    pub light: Slot<Spanned<&'static str>>,
    /// How it is moved.
    pub agitation: Slot<Spanned<String>>,
    /// How long the sheet drips before it moves on.
    pub drain: Slot<Figure>,
    /// Changes of water, all within the step's time.
    pub changes: Slot<Spanned<u32>>,
    /// Which tray.
    pub tray: Slot<Spanned<String>>,
    /// Sheets that lie in it at once.
    pub places: Slot<Spanned<u32>>,
    /// How much longer a sheet may stay.
    pub slack: Slot<Figure>,
    /// The longest gap after the step before.
    pub within: Slot<Figure>,
    /// Fresh and latest clearing time of a fixer.
    pub clears: Vec<Spanned<Amount>>,
}

/// How long a step takes.
#[derive(Debug, Clone, PartialEq)]
pub enum Duration {
    /// This long.
    Takes(Amount),
    /// Until it looks right.
    ByInspection,
}

const STEP: &[Field] = &[
    Field::new(
        "bath",
        Shape::Reference(&[Kind::Recipe]),
        "the recipe of the bath",
    ),
    Field::new(
        "rinse",
        Shape::Own("words, a time, or nothing"),
        "a short water bath",
    ),
    Field::new("wash", Shape::Own("words, a time, or nothing"), "washing"),
    Field::new(
        "wash aid",
        Shape::Own("the recipe's id"),
        "a bath that helps washing",
    ),
    Field::new("dry", Shape::Own("words, a time, or nothing"), "drying"),
    Field::new("time", Shape::Own("a time, or by inspection"), "how long"),
    Field::new("temperature", Shape::Amount(&[Temperature]), "how warm"),
    Field::new("light", Shape::Word(StepLight::WORDS), "under which light"),
    Field::new("agitation", Shape::Text, "how it is moved"),
    Field::new(
        "drain",
        Shape::Amount(&[Time]),
        "how long it drips before it moves on",
    ),
    Field::new(
        "changes",
        Shape::Whole,
        "changes of water; `time` is that of all of them together",
    ),
    Field::new("tray", Shape::Text, "which tray"),
    Field::new("places", Shape::Whole, "sheets that lie in it at once"),
    Field::new(
        "slack",
        Shape::Amount(&[Time]),
        "how much longer a sheet may stay",
    ),
    Field::new(
        "within",
        Shape::Amount(&[Time]),
        "the longest gap after the step before",
    ),
    Field::new(
        "clears",
        Shape::List(&Shape::Amount(&[Time])),
        "fresh and latest clearing time; also as `fresh:` and `latest:`",
    ),
];

const CLEARS: &[Field] = &[
    Field::required("fresh", Shape::Amount(&[Time]), "clearing time of the fresh bath"),
    Field::new(
        "latest",
        Shape::Amount(&[Time]),
        "clearing time that was measured last",
    ),
];

/// The keys of a `process` block.
pub(super) const FIELDS: &[Field] = &[
    Field::required("steps", Shape::List(&Shape::Map(STEP)), "the line, in order"),
    Field::new("paper", Shape::Word(Base::WORDS), "the base it is for"),
    Field::new("hands", Shape::Whole, "pairs of hands"),
    Field::new("move", Shape::Amount(&[Time]), "time that a move takes"),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Process {
    let before = keys.lower.findings.len();
    let steps = keys.items("steps", step);
    let incomplete = keys.incomplete() || keys.lower.findings.len() > before;
    Process {
        steps,
        paper: keys.word("paper"),
        hands: keys.whole("hands"),
        move_time: keys.figure("move"),
        incomplete,
    }
}

fn step(lower: &mut Lower, node: &Node) -> Option<ProcessStep> {
    if matches!(node.kind, NodeKind::Scalar { .. }) {
        const BARE: &[&str] = &["rinse", "wash", "dry"];
        let word = lower.word(node, BARE)?;
        return Some(ProcessStep::bare(StepKind::from_word(word.value)?, node.span));
    }
    if let Some(entry) = bath_as_key(node) {
        let time = entry.value.text().map_or("5 min", str::trim);
        let message = format!("a step of the line has no key `{}`", entry.key.value);
        lower.report(
            Finding::fault(slug::KEY_UNKNOWN, entry.key.span, message).help(format!(
                "name the bath by the id of its recipe, `bath: ...`, and write `time: {time}` below it"
            )),
        );
        return None;
    }
    let mut keys = Keys::open(
        lower,
        "a step of the line",
        node.span.head(),
        node,
        STEP,
        &[],
        false,
    )?;
    let kinds: Vec<&'static str> = StepKind::WORDS
        .iter()
        .copied()
        .filter(|word| keys.has(word))
        .collect();
    let [kind] = kinds[..] else {
        if let [first, second, ..] = kinds[..] {
            let span = keys.key_span(second).unwrap_or(node.span);
            let message = format!("a step is one thing, this one is `{first}` and `{second}`");
            keys.lower.report(
                Finding::fault(slug::VALUE_SHAPE, span, message)
                    .help("write two steps, each with its own dash"),
            );
        } else if !keys.incomplete() {
            let finding = Finding::fault(
                slug::KEY_MISSING,
                node.span.head(),
                "a step of the line says what it is",
            )
            .help(format!("begin it with one of {}", list(StepKind::WORDS)));
            keys.lower.report(finding);
        }
        return None;
    };
    let mut step = ProcessStep::bare(
        StepKind::from_word(kind)?,
        keys.key_span(kind).unwrap_or(node.span),
    );
    match step.kind {
        StepKind::Bath => step.bath = keys.reference("bath"),
        StepKind::WashAid => {
            step.bath = keys.slot("wash aid", |lower, node| lower.reference(node, &[Kind::Recipe]));
        }
        _ => words_or_time(&mut keys, &mut step),
    }
    if keys.has("time") {
        step.time = keys.slot("time", duration);
    }
    step.temperature = keys.figure("temperature");
    step.light = keys.word("light");
    step.agitation = keys.text("agitation");
    step.drain = keys.figure("drain");
    step.changes = keys.whole("changes");
    step.tray = keys.text("tray");
    step.places = keys.whole("places");
    step.slack = keys.figure("slack");
    step.within = keys.figure("within");
    step.clears = clears(&mut keys);
    Some(step)
}

/// `developer: 5 min`: a step that begins with the name of a bath where its kind should stand.
fn bath_as_key(node: &Node) -> Option<&Entry> {
    let entries = node.entries()?;
    let is_kind = |entry: &Entry| StepKind::WORDS.contains(&entry.key.value.as_str());
    let first = entries.first().filter(|_| !entries.iter().any(is_kind))?;
    let known = || STEP.iter().map(|field| field.key);
    let word = first.key.value.as_str();
    let strange = !known().any(|key| key == word)
        && nearest(word, known())
            .or_else(|| nearest::shortened(word, known()))
            .is_none();
    (strange && first.value.text().is_some()).then_some(first)
}

/// One clearing time or two: fresh, then latest.
fn clears(keys: &mut Keys<'_, '_>) -> Vec<Spanned<Amount>> {
    let Some(node) = keys.node("clears") else {
        return Vec::new();
    };
    if node.entries().is_some() {
        let opened = Keys::open(keys.lower, "`clears`", node.span, node, CLEARS, &[], false);
        let Some(mut keys) = opened else {
            return Vec::new();
        };
        let both = [keys.figure("fresh"), keys.figure("latest")];
        let times = both.iter().filter_map(Slot::get);
        return times
            .map(|time| Spanned::new(time.amount.clone(), time.span))
            .collect();
    }
    node.items()
        .iter()
        .filter_map(|item| keys.lower.amount(item, &[Time]))
        .collect()
}

impl ProcessStep {
    /// The light that it says it is done under, where that is a known word.
    pub fn lit(&self) -> Option<StepLight> {
        self.light
            .get()
            .and_then(|light| StepLight::from_word(light.value))
    }

    /// Whether the line leaves its end to the eye.
    pub fn ends_by_eye(&self) -> bool {
        matches!(self.time.get(), Some(time) if time.value == Duration::ByInspection)
    }

    fn bare(kind: StepKind, span: Span) -> Self {
        Self {
            kind,
            span,
            bath: Slot::Absent,
            with: None,
            time: Slot::Absent,
            temperature: Slot::Absent,
            light: Slot::Absent,
            agitation: Slot::Absent,
            drain: Slot::Absent,
            changes: Slot::Absent,
            tray: Slot::Absent,
            places: Slot::Absent,
            slack: Slot::Absent,
            within: Slot::Absent,
            clears: Vec::new(),
        }
    }
}

/// `rinse: 30 s` is a time, `rinse: tap water` is what it is done with, `rinse:` says neither.
fn words_or_time(keys: &mut Keys<'_, '_>, step: &mut ProcessStep) {
    let Some(node) = keys.raw(step.kind.word()) else {
        return;
    };
    match &node.kind {
        NodeKind::Scalar { text, .. } if text.trim_start().starts_with(|c: char| c.is_ascii_digit()) => {
            step.time = Slot::read(duration(keys.lower, node));
        }
        NodeKind::Scalar { text, .. } => step.with = Some(text.clone()),
        NodeKind::Empty | NodeKind::Broken => {}
        _ => {
            keys.lower.scalar(node, "words or a time");
        }
    }
}

fn duration(lower: &mut Lower, node: &Node) -> Option<Spanned<Duration>> {
    if node.text().is_some_and(|text| text.trim() == "by inspection") {
        return Some(Spanned::new(Duration::ByInspection, node.span));
    }
    let time = lower.figure(node, &[Time])?;
    Some(Spanned::new(Duration::Takes(time.amount), time.span))
}
