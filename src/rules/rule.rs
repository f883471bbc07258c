//! What a rule is: its name, its grade, its reasons, its examples and its check.

use crate::finding::{Grade, Slug};

use super::context::{Context, Report};

/// One rule. Its file holds nothing else.
#[derive(Debug, Clone, Copy)]
pub struct Rule {
    /// Its name, which names the fault.
    pub name: Slug,
    /// How much it matters.
    pub grade: Grade,
    /// Where it belongs in the book.
    pub group: Group,
    /// What it looks for, in a sentence.
    pub looks_for: &'static str,
    /// Why that matters in the tray.
    pub why: &'static str,
    /// What to write or do instead.
    pub instead: &'static str,
    /// The figure beyond which it speaks, where it has one.
    pub threshold: Option<&'static str>,
    /// How sure we are.
    pub sureness: Sureness,
    /// Published sources; empty where it is common practice or follows from the language itself.
    pub sources: &'static [&'static str],
    /// Pages that are reported and pages that are not.
    pub examples: &'static [Example],
    /// Looks for it. None for rules whose fault is seen while reading or pressing.
    pub check: Option<fn(&Context<'_>, &mut Report)>,
}

/// Where a rule belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// Files, pages and blocks.
    Reading,
    /// Amounts and materials.
    Materials,
    /// Mixing and keeping baths.
    Baths,
    /// The line of baths: stop, fix, wash.
    Line,
    /// Cameras and exposures.
    Exposure,
    /// The room, the people and the waste.
    Room,
    /// What is pressed.
    Print,
}

impl Group {
    /// The group's heading.
    pub fn heading(self) -> &'static str {
        match self {
            Self::Reading => "Reading",
            Self::Materials => "Materials",
            Self::Baths => "Baths",
            Self::Line => "The line",
            Self::Exposure => "Exposure",
            Self::Room => "The room",
            Self::Print => "Print",
        }
    }
}

/// How sure we are of a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sureness {
    /// It follows from the language of notebooks.
    Language,
    /// A published source says it.
    Published,
    /// Computed from published constants.
    Computed,
    /// Common practice, no source.
    Practice,
}

impl Sureness {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Language => "certain: it follows from the language of notebooks",
            Self::Published => "published: see the sources",
            Self::Computed => "computed from published constants",
            Self::Practice => "common practice, no source",
        }
    }
}

/// A small notebook that shows a rule.
#[derive(Debug, Clone, Copy)]
pub struct Example {
    /// Whether the rule speaks of it.
    pub reported: bool,
    /// A page; its `trayside.yaml` is a usual one unless the page begins with one of its own above a line `---8<---`.
    pub page: &'static str,
}

impl Example {
    /// An example that is reported.
    pub const fn bad(page: &'static str) -> Self {
        Self { reported: true, page }
    }

    /// An example that is not.
    pub const fn good(page: &'static str) -> Self {
        Self {
            reported: false,
            page,
        }
    }
}
