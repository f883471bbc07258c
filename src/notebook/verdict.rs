//! How a sheet came out, and the strips and brackets that find out.

use crate::finding::{Finding, slug};
use crate::source::Spanned;
use crate::syntax::Node;
use crate::units::{Amount, Dimension};

use super::lower::Lower;

/// How a sheet came out. It says what the sheet needs, not how it looks.
#[derive(Debug, Clone, PartialEq)]
pub enum Verdict {
    /// Right as it is.
    Right,
    /// Needs this many stops more light; less where negative.
    Needs(Amount),
    /// A strip that is right at this step, from 1.
    RightAtStep(u32),
    /// Nothing came.
    Blank,
    /// All of it black.
    Black,
    /// Light got in.
    Leak,
}

impl Verdict {
    /// The stops that the sheet needs, where the verdict says so.
    pub fn needs_stops(&self) -> Option<f64> {
        match self {
            Self::Right => Some(0.0),
            Self::Needs(stops) => Some(stops.range.best),
            _ => None,
        }
    }
}

/// A test strip: so many steps, so far apart, from a first time.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// How many steps, from 2.
    pub steps: u32,
    /// Stops between steps.
    pub stops: Amount,
    /// The first step's time.
    pub from: Amount,
}

/// A row of exposures about a middle one.
#[derive(Debug, Clone, PartialEq)]
pub struct Bracket {
    /// How many exposures, from 2.
    pub count: u32,
    /// Stops between them.
    pub stops: Amount,
}

const KNOWN: &str =
    "write `right`, `needs +1/2 stop`, `needs -1 stop`, `right at step 3`, `blank`, `black` or `leak`";

/// Reads a verdict. `negative` accepts `1/2 stop thin` and `1 stop dense`, which say the same of a negative.
pub(super) fn verdict(lower: &mut Lower, node: &Node, negative: bool) -> Option<Spanned<Verdict>> {
    let text = lower.scalar(node, "a verdict")?;
    let words = text.trim();
    let lead = text.len() - text.trim_start().len();
    let value = match words {
        "right" => Verdict::Right,
        "blank" => Verdict::Blank,
        "black" => Verdict::Black,
        "leak" => Verdict::Leak,
        _ => {
            if let Some(stops) = words.strip_prefix("needs ") {
                let start = lead + words.len() - stops.trim_start().len();
                Verdict::Needs(
                    lower
                        .amount_in(node, start..lead + words.len(), &[Dimension::Stops])?
                        .value,
                )
            } else if let Some(step) = words.strip_prefix("right at step ") {
                match step.trim().parse() {
                    Ok(step) if step > 0 => Verdict::RightAtStep(step),
                    _ => return unknown(lower, node, words),
                }
            } else if let Some((stops, sign)) = looks(words).filter(|_| negative) {
                let amount = lower
                    .amount_in(node, lead..lead + stops.len(), &[Dimension::Stops])?
                    .value;
                Verdict::Needs(if sign < 0.0 { amount.scaled(-1.0) } else { amount })
            } else {
                return unknown(lower, node, words);
            }
        }
    };
    Some(Spanned::new(value, node.span))
}

/// `1/2 stop thin`: a thin negative needs more light, a dense one less.
fn looks(words: &str) -> Option<(&str, f64)> {
    let thin = words.strip_suffix(" thin").map(|stops| (stops, 1.0));
    thin.or_else(|| words.strip_suffix(" dense").map(|stops| (stops, -1.0)))
}

fn unknown<T>(lower: &mut Lower, node: &Node, words: &str) -> Option<T> {
    let near = super::nearest::nearest(words, ["right", "blank", "black", "leak"]);
    let help = near.map_or_else(
        || KNOWN.to_owned(),
        |near| format!("did you mean `{near}`? {KNOWN}"),
    );
    lower
        .report(Finding::fault(slug::WORD_UNKNOWN, node.span, format!("`{words}` is no verdict")).help(help));
    None
}

/// Reads `6 x 1/2 stop from 10 s`.
pub(super) fn strip(lower: &mut Lower, node: &Node) -> Option<Spanned<Strip>> {
    let text = lower.scalar(node, "a strip")?;
    let Some(from) = text.find(" from ") else {
        return shape(
            lower,
            node,
            "a strip says its steps and its first time",
            "write it as `6 x 1/2 stop from 10 s`",
        );
    };
    let (steps, stops) = steps(lower, node, text, from, "6 x 1/2 stop from 10 s")?;
    let time = lower.amount_in(node, from + " from ".len()..text.len(), &[Dimension::Time])?;
    Some(Spanned::new(
        Strip {
            steps,
            stops,
            from: time.value,
        },
        node.span,
    ))
}

/// Reads `5 x 2/3 stop`.
pub(super) fn bracket(lower: &mut Lower, node: &Node) -> Option<Spanned<Bracket>> {
    let text = lower.scalar(node, "a bracket")?;
    let (count, stops) = steps(lower, node, text, text.len(), "5 x 2/3 stop")?;
    Some(Spanned::new(Bracket { count, stops }, node.span))
}

fn steps(lower: &mut Lower, node: &Node, text: &str, end: usize, example: &str) -> Option<(u32, Amount)> {
    let head = text.get(..end)?;
    let cut = head.char_indices().find(|(_, c)| matches!(c, 'x' | '×'));
    let Some((at, cross)) = cut else {
        return shape(
            lower,
            node,
            "how many steps is missing",
            &format!("write it as `{example}`"),
        );
    };
    let count: Option<u32> = head
        .get(..at)?
        .trim()
        .parse()
        .ok()
        .filter(|count| (2..=60).contains(count));
    let Some(count) = count else {
        return shape(
            lower,
            node,
            "the number of steps is a whole number from 2 to 60",
            &format!("write it as `{example}`"),
        );
    };
    let start = at + cross.len_utf8();
    let gap = head
        .get(start..)
        .map_or(0, |rest| rest.len() - rest.trim_start().len());
    let stops = lower.amount_in(node, start + gap..head.trim_end().len(), &[Dimension::Stops])?;
    Some((count, stops.value))
}

fn shape<T>(lower: &mut Lower, node: &Node, message: &str, help: &str) -> Option<T> {
    lower.report(Finding::fault(slug::VALUE_SHAPE, node.span, message).help(help));
    None
}
