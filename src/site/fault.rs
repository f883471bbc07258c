//! What can go wrong while pages are rendered: a mistake in a template.

use std::error::Error;
use std::fmt;

/// A mistake in a template, at its exact place.
///
/// The templates that come with the program are tested, so the file is one that the notebook put in their place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SiteFault {
    /// The template's path under `templates`, such as `site/page.html`.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// What is the matter.
    pub message: String,
}

impl SiteFault {
    /// The fault that the template engine reports; `rendering` is the template that was asked for.
    pub(super) fn from_tera(error: &tera::Error, rendering: &str) -> Self {
        use tera::ErrorKind as Kind;
        let at_start = |file: &str, message: String| Self {
            file: file.to_owned(),
            line: 1,
            column: 1,
            message,
        };
        match error.kind() {
            Kind::SyntaxError(report) | Kind::RenderingError(report) => {
                let file = if report.filename().is_empty() {
                    rendering
                } else {
                    report.filename()
                };
                Self {
                    file: file.to_owned(),
                    line: report.span().start_line.max(1),
                    column: report.span().start_col + 1,
                    message: report.message().to_owned(),
                }
            }
            Kind::CircularExtend { tpl, .. } => at_start(tpl, "extends itself by a round way".to_owned()),
            Kind::CircularInclude { tpl, .. } => at_start(tpl, "includes itself by a round way".to_owned()),
            Kind::MissingParent { current, parent } => {
                at_start(current, format!("extends `{parent}`, which does not exist"))
            }
            other => at_start(rendering, other.to_string()),
        }
    }
}

impl fmt::Display for SiteFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}:{}: {}", self.file, self.line, self.column, self.message)
    }
}

impl Error for SiteFault {}
