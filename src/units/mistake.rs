//! What is wrong with a written amount, and where.

use std::ops::Range;

use crate::finding::Slug;

/// A fault in an amount. The caller knows the file and turns it into a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mistake {
    /// The exact word, in bytes of the text that was parsed; on character boundaries.
    pub at: Range<usize>,
    /// The rule that was broken.
    pub rule: Slug,
    /// What is the matter: lower case, no full stop.
    pub message: String,
    /// What to write instead, in words.
    pub help: Option<String>,
    /// What to put in the place of `at`, where there is exactly one right text.
    pub instead: Option<String>,
}

impl Mistake {
    pub(crate) fn new(rule: Slug, at: Range<usize>, message: impl Into<String>) -> Self {
        Self {
            at,
            rule,
            message: message.into(),
            help: None,
            instead: None,
        }
    }

    pub(crate) fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    pub(crate) fn instead(mut self, text: impl Into<String>) -> Self {
        self.instead = Some(text.into());
        self
    }
}
