//! What trayside has to say about a notebook: a rule's name, a grade, a message at an exact place, and what to write
//! instead.
//!
//! Any layer may make a [`Finding`]; the names it may use are the constants of [`slug`], and the catalogue in
//! [`crate::rules`] documents every one of them. Only this module turns findings into text.

pub mod render;
pub mod sarif;
pub mod slug;

use std::fmt;

use crate::source::Span;

pub use slug::Slug;

/// How much a finding matters, gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Grade {
    /// Can hurt someone. Never silenced, only acknowledged.
    Hazard,
    /// Cannot be right; what depends on it is not pressed.
    Fault,
    /// Will likely disappoint.
    Doubt,
    /// Worth knowing.
    Hint,
}

impl Grade {
    /// Every grade, gravest first.
    pub const ALL: [Self; 4] = [Self::Hazard, Self::Fault, Self::Doubt, Self::Hint];

    /// The grade's word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Hazard => "hazard",
            Self::Fault => "fault",
            Self::Doubt => "doubt",
            Self::Hint => "hint",
        }
    }
}

impl fmt::Display for Grade {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// A further place that belongs to a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// Where.
    pub span: Span,
    /// What it has to do with the finding.
    pub message: String,
}

/// Text that can be put in the place of other text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Replacement {
    /// What to replace.
    pub span: Span,
    /// What to write there.
    pub text: String,
}

/// Whether a finding counts.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Standing {
    /// It counts.
    #[default]
    Open,
    /// The block says `expects`: shown, but does not count.
    Expected,
    /// The block says `acknowledge` and why: shown, does not count, and is still printed where it is a hazard.
    Acknowledged(String),
}

/// One thing to say about a notebook.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The rule that was broken.
    pub rule: Slug,
    /// How much it matters.
    pub grade: Grade,
    /// What is the matter: lower case, no full stop, backticks round what was written.
    pub message: String,
    /// The exact word.
    pub span: Span,
    /// What to write instead.
    pub help: Option<String>,
    /// A replacement that would mend it, where there is exactly one.
    pub replacement: Option<Replacement>,
    /// Further places.
    pub related: Vec<Place>,
    /// Whether it counts.
    pub standing: Standing,
}

impl Finding {
    /// A finding of `grade`.
    pub fn new(rule: Slug, grade: Grade, span: Span, message: impl Into<String>) -> Self {
        Self {
            rule,
            grade,
            message: message.into(),
            span,
            help: None,
            replacement: None,
            related: Vec::new(),
            standing: Standing::Open,
        }
    }

    /// A fault: something that cannot be right.
    pub fn fault(rule: Slug, span: Span, message: impl Into<String>) -> Self {
        Self::new(rule, Grade::Fault, span, message)
    }

    /// Adds what to write instead.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// Adds what to write instead, if there is something.
    #[must_use]
    pub fn maybe_help(mut self, help: Option<String>) -> Self {
        self.help = help.or(self.help);
        self
    }

    /// Adds a replacement of `span` by `text`.
    #[must_use]
    pub fn replace(mut self, span: Span, text: impl Into<String>) -> Self {
        self.replacement = Some(Replacement {
            span,
            text: text.into(),
        });
        self
    }

    /// Adds a further place.
    #[must_use]
    pub fn relate(mut self, span: Span, message: impl Into<String>) -> Self {
        self.related.push(Place {
            span,
            message: message.into(),
        });
        self
    }

    /// Whether it counts towards the summary and the exit code.
    pub fn counts(&self) -> bool {
        self.standing == Standing::Open
    }
}

/// How many findings of each grade count.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Summary {
    /// Hazards that nobody has acknowledged.
    pub hazard: usize,
    /// Faults.
    pub fault: usize,
    /// Doubts.
    pub doubt: usize,
    /// Hints.
    pub hint: usize,
}

impl Summary {
    /// Counts the findings that count.
    pub fn of(findings: &[Finding]) -> Self {
        let mut summary = Self::default();
        for finding in findings.iter().filter(|finding| finding.counts()) {
            match finding.grade {
                Grade::Hazard => summary.hazard += 1,
                Grade::Fault => summary.fault += 1,
                Grade::Doubt => summary.doubt += 1,
                Grade::Hint => summary.hint += 1,
            }
        }
        summary
    }

    /// Both counts together.
    #[must_use]
    pub fn and(self, more: Self) -> Self {
        Self {
            hazard: self.hazard + more.hazard,
            fault: self.fault + more.fault,
            doubt: self.doubt + more.doubt,
            hint: self.hint + more.hint,
        }
    }

    /// Whether the notebook is to be refused: a fault, or a hazard that nobody has acknowledged.
    pub fn refuses(self) -> bool {
        self.hazard + self.fault > 0
    }
}
