//! What can go wrong at the press, and where.

use std::fmt;

use typst::WorldExt;
use typst::diag::SourceDiagnostic;
use typst::syntax::DiagSpan;

use super::world::PressWorld;

/// Something wrong with a pressed card, or the reason why there is none.
#[derive(Debug, Clone, PartialEq)]
pub enum PressFault {
    /// A card does not hold what is on it, even at the smallest sizes. Nothing was clipped: the words run on.
    Overflow {
        /// The card's id.
        card: String,
        /// How far it runs over, mm.
        by_mm: f64,
        /// What takes most of the room, such as `steps`; `width` for words past the side, `overlap` for words over
        /// one another.
        what: String,
        /// The words that stand past the side or over others; of what takes most of the room, the longest. Empty where the
        /// press does not know.
        words: String,
        /// About how many letters have to go; 0 where the press does not know.
        letters: usize,
    },
    /// No font has this character; the card shows an empty box for it.
    MissingGlyph {
        /// The card's id; empty where the words belong to no card.
        card: String,
        /// The character.
        character: char,
    },
    /// Words that a safelight swallows.
    RedContrast {
        /// The card's id.
        card: String,
        /// The words that are hardest to read.
        element: String,
        /// Their contrast under a red lamp, as [`crate::tone::red_light::contrast`] has it.
        contrast: f64,
        /// How many more runs of words have too little.
        others: usize,
    },
    /// A mistake in a template.
    Template {
        /// The template, as a path from the notebook folder.
        file: String,
        /// From 1; 1 where the place is not known.
        line: usize,
        /// From 1, in Unicode characters; 1 where the place is not known.
        column: usize,
        /// What is the matter, with hints.
        message: String,
    },
    /// The card does not go on the sheet, or one of the two has no size.
    Layout {
        /// What is the matter.
        message: String,
    },
}

impl PressFault {
    /// A mistake in a template without a place in it.
    pub(super) fn template(file: &str, message: impl Into<String>) -> Self {
        Self::Template {
            file: file.to_owned(),
            line: 1,
            column: 1,
            message: message.into(),
        }
    }
}

impl fmt::Display for PressFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Overflow {
                card, by_mm, what, ..
            } => {
                write!(f, "card `{card}` runs over by {by_mm:.1} mm ({what})")
            }
            Self::MissingGlyph { card, character } => write!(
                f,
                "card `{card}` has the character `{character}` (U+{:04X}), which no font here can show",
                u32::from(*character)
            ),
            Self::RedContrast {
                card,
                element,
                contrast,
                others,
            } => write!(
                f,
                "card `{card}` cannot be read under a red lamp: `{element}` has contrast {contrast:.1}, and {others} more"
            ),
            Self::Template {
                file,
                line,
                column,
                message,
            } => write!(f, "{file}:{line}:{column}: {message}"),
            Self::Layout { message } => f.write_str(message),
        }
    }
}

impl std::error::Error for PressFault {}

/// The typesetter's errors, each at its line and column.
pub(super) fn from_typst(world: &PressWorld, errors: &[SourceDiagnostic]) -> Vec<PressFault> {
    errors.iter().map(|error| one(world, error)).collect()
}

fn one(world: &PressWorld, error: &SourceDiagnostic) -> PressFault {
    let mut message = error.message.to_string();
    for hint in &error.hints {
        message.push_str("; ");
        message.push_str(&hint.v);
    }
    // An error inside the standard library has no place of its own; the call that led there has one.
    let place = locate(world, error.span).or_else(|| {
        error
            .trace
            .iter()
            .find_map(|point| locate(world, DiagSpan::from(point.span)))
    });
    match place {
        Some((file, line, column)) => PressFault::Template {
            file,
            line,
            column,
            message,
        },
        None => PressFault::template(super::world::MAIN, message),
    }
}

fn locate(world: &PressWorld, span: DiagSpan) -> Option<(String, usize, usize)> {
    let id = span.id()?;
    let range = world.range(span)?;
    let path = id.get().vpath().get_without_slash().to_owned();
    let source = typst::World::source(world, id).ok()?;
    let (line, column) = source.lines().byte_to_line_column(range.start)?;
    Some((path, line + 1, column + 1))
}
