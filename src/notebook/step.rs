//! A step of mixing: one verb, a time or a temperature, and what belongs to it.

use crate::finding::{Finding, slug};
use crate::source::{Span, Spanned};
use crate::syntax::{Node, NodeKind};
use crate::units::Amount;
use crate::units::Dimension::{Dilution, Temperature, Time, Volume};

use super::field::{Field, Shape};
use super::keys::Keys;
use super::lower::{Figure, Lower};
use super::slot::Slot;
use super::words::Verb;

/// One step.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is done.
    pub verb: Verb,
    /// Where the verb stands.
    pub span: Span,
    /// How long.
    pub time: Option<Amount>,
    /// To which temperature.
    pub temperature: Option<Amount>,
    /// To which volume, for `make up`.
    pub volume: Option<Amount>,
    /// With how much water, for `dilute`.
    pub dilution: Option<Amount>,
    /// Parts, for `pour` and `combine`.
    pub parts: Vec<Spanned<String>>,
    /// Words, for `crush`, `strain` and `filter`.
    pub words: Option<String>,
    /// At which temperature.
    pub at: Slot<Figure>,
    /// In what.
    pub vessel: Slot<Spanned<String>>,
    /// Whether someone has to be there.
    pub hands: Option<bool>,
    /// A temperature read after a time.
    pub reading: Slot<(Amount, Amount)>,
    /// Whether its value could not be read.
    pub broken: bool,
}

impl Step {
    /// Whether the step needs a person: said by `hands`, else by the verb.
    pub fn needs_hands(&self) -> bool {
        self.hands.unwrap_or(!matches!(
            self.verb,
            Verb::Steep | Verb::Cool | Verb::Settle | Verb::Rest | Verb::Bake | Verb::Heat | Verb::Boil
        ))
    }
}

/// The keys of a step of a recipe: one verb, and what may stand beside it.
pub(super) const STEP: &[Field] = &[
    Field::new(
        "heat",
        Shape::Amount(&[Temperature, Time]),
        "bring to a temperature",
    ),
    Field::new("boil", Shape::Amount(&[Time]), "boil for a time"),
    Field::new(
        "steep",
        Shape::Amount(&[Time]),
        "leave plants in the water for a time",
    ),
    Field::new("strain", Shape::Text, "pour through cloth or paper"),
    Field::new(
        "cool",
        Shape::Amount(&[Temperature, Time]),
        "let the temperature fall",
    ),
    Field::new("dissolve", Shape::Amount(&[Time]), "stir until clear"),
    Field::new("stir", Shape::Amount(&[Time]), "stir"),
    Field::new("settle", Shape::Amount(&[Time]), "let sink"),
    Field::new("rest", Shape::Amount(&[Time]), "leave alone"),
    Field::new(
        "pour",
        Shape::Own("[one part, into another]"),
        "pour one part into another",
    ),
    Field::new(
        "combine",
        Shape::Own("[one part, another]"),
        "bring parts together",
    ),
    Field::new(
        "make up",
        Shape::Amount(&[Volume]),
        "add water to a volume; to what the recipe makes where none is given",
    ),
    Field::new("filter", Shape::Text, "through a filter"),
    Field::new("dilute", Shape::Amount(&[Dilution, Volume]), "with water"),
    Field::new("bake", Shape::Amount(&[Time, Temperature]), "in the oven"),
    Field::new("crush", Shape::Text, "to a powder"),
    Field::new("at", Shape::Amount(&[Temperature]), "at this temperature"),
    Field::new("vessel", Shape::Text, "in what"),
    Field::new("hands", Shape::YesNo, "whether someone has to be there"),
    Field::new(
        "reading",
        Shape::Own("a temperature after a time, such as 61 °C after 10 min"),
        "to correct a cooling",
    ),
];

/// The steps of a recipe or part.
pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Vec<Step> {
    keys.items("steps", step)
}

fn step(lower: &mut Lower, node: &Node) -> Option<Step> {
    if let NodeKind::Scalar { text, .. } = &node.kind {
        let verb = verb(lower, text.trim(), node)?;
        return Some(Step::bare(verb, node.span));
    }
    let mut keys = Keys::open(lower, "a step", node.span, node, STEP, &[], false)?;
    let verbs: Vec<Verb> = Verb::WORDS
        .iter()
        .filter(|word| keys.has(word))
        .filter_map(|word| Verb::from_word(word))
        .collect();
    let [verb] = verbs[..] else {
        if let [first, second, ..] = verbs[..] {
            let span = keys.key_span(second.word()).unwrap_or(node.span);
            let message = format!(
                "a step does one thing, this one has `{}` and `{}`",
                first.word(),
                second.word()
            );
            keys.lower.report(
                Finding::fault(slug::VALUE_SHAPE, span, message)
                    .help("write two steps, each with its own dash"),
            );
        } else if !keys.incomplete() {
            let finding = Finding::fault(slug::KEY_MISSING, node.span, "a step says what to do").help(
                format!("begin it with one of {}", super::lower::list(Verb::WORDS)),
            );
            keys.lower.report(finding);
        }
        return None;
    };
    let span = keys.key_span(verb.word()).unwrap_or(node.span);
    let mut step = Step::bare(verb, span);
    value(&mut keys, &mut step);
    step.at = keys.figure("at");
    step.vessel = keys.text("vessel");
    step.hands = keys.yes_no("hands").get().map(|hands| hands.value);
    step.reading = keys.slot("reading", reading);
    Some(step)
}

impl Step {
    fn bare(verb: Verb, span: Span) -> Self {
        Self {
            verb,
            span,
            time: None,
            temperature: None,
            volume: None,
            dilution: None,
            parts: Vec::new(),
            words: None,
            at: Slot::Absent,
            vessel: Slot::Absent,
            hands: None,
            reading: Slot::Absent,
            broken: false,
        }
    }

    fn take(&mut self, amount: Amount) {
        match amount.dimension {
            Time => self.time = Some(amount),
            Temperature => self.temperature = Some(amount),
            Volume => self.volume = Some(amount),
            Dilution => self.dilution = Some(amount),
            _ => {}
        }
    }
}

fn verb(lower: &mut Lower, text: &str, node: &Node) -> Option<Verb> {
    if let Some(verb) = Verb::from_word(text) {
        return Some(verb);
    }
    lower
        .word(node, Verb::WORDS)
        .and_then(|word| Verb::from_word(word.value))
}

/// The verb's value: an amount of what the verb takes, parts, or words.
fn value(keys: &mut Keys<'_, '_>, step: &mut Step) {
    let word = step.verb.word();
    let Some(node) = keys.raw(word) else { return };
    match (step.verb, &node.kind) {
        (_, NodeKind::Empty) => {}
        (_, NodeKind::Broken) => step.broken = true,
        (Verb::Pour | Verb::Combine, _) => step.parts = parts(keys.lower, node),
        (Verb::Strain | Verb::Filter | Verb::Crush, NodeKind::Scalar { text, .. }) => {
            step.words = Some(text.clone());
        }
        (verb, NodeKind::Scalar { text, .. }) if verb == Verb::Steep || verb == Verb::Bake => {
            match text.find(" at ") {
                // `20 min at 90 °C` says both in one breath.
                Some(at) => {
                    let time = keys.lower.amount_in(node, 0..at, &[Time]);
                    let warm = keys
                        .lower
                        .amount_in(node, at + " at ".len()..text.len(), &[Temperature]);
                    step.broken = time.is_none() || warm.is_none();
                    step.time = time.map(|time| time.value);
                    step.temperature = warm.map(|warm| warm.value);
                }
                None => amount(keys, step),
            }
        }
        _ => amount(keys, step),
    }
}

fn amount(keys: &mut Keys<'_, '_>, step: &mut Step) {
    match keys.figure(step.verb.word()) {
        Slot::Is(figure) => step.take(figure.amount),
        Slot::Broken => step.broken = true,
        Slot::Absent => {}
    }
}

/// `[alkali, into tea]`: names of parts, the word `into` set aside.
fn parts(lower: &mut Lower, node: &Node) -> Vec<Spanned<String>> {
    let mut parts = Vec::new();
    for item in node.items() {
        let Some(text) = lower.scalar(item, "the name of a part") else {
            continue;
        };
        let name = text.trim().strip_prefix("into ").unwrap_or(text.trim()).trim();
        let start = text.find(name).unwrap_or(0);
        parts.push(Spanned::new(
            name.to_owned(),
            item.within(&(start..start + name.len())),
        ));
    }
    parts
}

/// `61 °C after 10 min`.
fn reading(lower: &mut Lower, node: &Node) -> Option<(Amount, Amount)> {
    let text = lower.scalar(node, "a reading")?;
    let Some(after) = text.find(" after ") else {
        lower.report(
            Finding::fault(
                slug::VALUE_SHAPE,
                node.span,
                "a reading says the temperature and after how long",
            )
            .help("write it as `61 °C after 10 min`"),
        );
        return None;
    };
    let temperature = lower.amount_in(node, 0..after, &[Temperature]);
    let time = lower.amount_in(node, after + " after ".len()..text.len(), &[Time]);
    Some((temperature?.value, time?.value))
}
