//! Findings as text for a terminal and as JSON, one object a line.

use std::borrow::Cow;

use annotate_snippets::{AnnotationKind, Group, Level, Patch, Renderer, Snippet};
use serde_json::{Value, json};

use crate::source::{SourceFile, Sources, Span};

use super::{Finding, Grade, Standing, Summary};

/// How terminal text is set.
#[derive(Debug, Clone, Copy)]
pub struct TextStyle {
    /// With colours.
    pub colours: bool,
    /// Columns of the terminal.
    pub width: usize,
}

/// All findings as text, each with the lines it speaks of.
pub fn text(findings: &[Finding], sources: &Sources, style: TextStyle) -> String {
    let renderer = if style.colours {
        Renderer::styled()
    } else {
        Renderer::plain()
    };
    let renderer = renderer.term_width(style.width);
    let mut out = String::new();
    for finding in findings {
        out.push_str(&one(finding, sources, &renderer));
        out.push_str("\n\n");
    }
    out
}

/// A file's name without what a terminal would obey: some systems take line ends and escapes in names.
pub fn tame(name: &str) -> Cow<'_, str> {
    if name.contains(char::is_control) {
        Cow::Owned(name.replace(char::is_control, "\u{fffd}"))
    } else {
        Cow::Borrowed(name)
    }
}

fn level(grade: Grade) -> Level<'static> {
    match grade {
        Grade::Hazard => Level::ERROR.with_name("hazard"),
        Grade::Fault => Level::ERROR.with_name("fault"),
        Grade::Doubt => Level::WARNING.with_name("doubt"),
        Grade::Hint => Level::NOTE.with_name("hint"),
    }
}

fn one(finding: &Finding, sources: &Sources, renderer: &Renderer) -> String {
    let title = level(finding.grade)
        .primary_title(&finding.message)
        .id(finding.rule.as_str());
    let mut group = Group::with_title(title);
    group = match snippet(finding, sources) {
        Some(snippet) => group.element(snippet),
        None => group.element(annotate_snippets::Origin::path(tame(
            sources.path(finding.span.file),
        ))),
    };
    for place in finding
        .related
        .iter()
        .filter(|place| place.span.file != finding.span.file)
    {
        if let Some(file) = sources.get(place.span.file) {
            let shown = Excerpt::of(file, std::iter::once(place.span));
            let annotation = AnnotationKind::Context
                .span(shown.range(place.span))
                .label(&place.message);
            group = group.element(shown.snippet().annotation(annotation));
        }
    }
    match &finding.standing {
        Standing::Open => {}
        Standing::Expected => {
            group = group.element(
                Level::NOTE
                    .with_name("expected")
                    .message("this block is meant to show it"),
            );
        }
        Standing::Acknowledged(reason) => {
            group = group.element(Level::NOTE.with_name("acknowledged").message(reason));
        }
    }
    let mut report = vec![group];
    if let Some(help) = &finding.help {
        let title = Level::HELP.with_name("help").secondary_title(help);
        let mut group = Group::with_title(title);
        if let Some(replacement) = &finding.replacement
            && let Some(file) = sources.get(replacement.span.file)
        {
            let shown = Excerpt::of(file, std::iter::once(replacement.span));
            let patch = Patch::new(shown.range(replacement.span), &replacement.text);
            group = group.element(shown.snippet().patch(patch));
        }
        report.push(group);
    }
    renderer.render(&report)
}

fn snippet<'a>(
    finding: &'a Finding,
    sources: &'a Sources,
) -> Option<Snippet<'a, annotate_snippets::Annotation<'a>>> {
    let file = sources
        .get(finding.span.file)
        .filter(|file| !file.text().is_empty())?;
    let related = || {
        let all = finding.related.iter();
        all.filter(|place| place.span.file == finding.span.file)
    };
    let spans = std::iter::once(finding.span).chain(related().map(|place| place.span));
    let shown = Excerpt::of(file, spans);
    let primary = AnnotationKind::Primary.span(shown.range(finding.span));
    let mut snippet = shown.snippet().annotation(primary);
    for place in related() {
        snippet = snippet.annotation(
            AnnotationKind::Context
                .span(shown.range(place.span))
                .label(&place.message),
        );
    }
    Some(snippet)
}

/// The lines of a file that a finding speaks of: with the whole file, each finding would cost its length.
struct Excerpt<'s> {
    file: &'s SourceFile,
    text: &'s str,
    line: usize,
    start: usize,
}

impl<'s> Excerpt<'s> {
    fn of(file: &'s SourceFile, spans: impl Iterator<Item = Span>) -> Self {
        let (start, end) = spans.fold((usize::MAX, 0), |(start, end), span| {
            (start.min(span.start as usize), end.max(span.end as usize))
        });
        let (line, bytes) = file.lines_around(start, end);
        Self {
            file,
            text: file.text().get(bytes.clone()).unwrap_or_default(),
            line,
            start: bytes.start,
        }
    }

    fn snippet<T: Clone>(&self) -> Snippet<'s, T> {
        Snippet::source(self.text)
            .line_start(self.line)
            .path(tame(self.file.path()))
    }

    fn range(&self, span: Span) -> std::ops::Range<usize> {
        let within = |at: u32| (at as usize).saturating_sub(self.start).min(self.text.len());
        let end = within(span.end);
        within(span.start).min(end)..end
    }
}

/// All findings as JSON lines, the summary last.
pub fn json_lines(findings: &[Finding], sources: &Sources) -> String {
    let mut out = String::new();
    for finding in findings {
        out.push_str(&json_of(finding, sources).to_string());
        out.push('\n');
    }
    let summary = Summary::of(findings);
    let counts = json!({"hazard": summary.hazard, "fault": summary.fault, "doubt": summary.doubt, "hint": summary.hint});
    out.push_str(&json!({ "summary": counts }).to_string());
    out.push('\n');
    out
}

fn json_of(finding: &Finding, sources: &Sources) -> Value {
    let place = sources.position(finding.span);
    let related: Vec<Value> = finding
        .related
        .iter()
        .map(|place| {
            let at = sources.position(place.span);
            json!({"path": sources.path(place.span.file), "line": at.line, "column": at.column, "message": place.message})
        })
        .collect();
    let mut object = json!({
        "rule": finding.rule.as_str(),
        "grade": finding.grade.word(),
        "message": finding.message,
        "path": sources.path(finding.span.file),
        "line": place.line,
        "column": place.column,
        "end_line": place.end_line,
        "end_column": place.end_column,
        "help": finding.help,
        "related": related,
    });
    let standing = match &finding.standing {
        Standing::Open => return object,
        Standing::Expected => json!("expected"),
        Standing::Acknowledged(reason) => {
            object["acknowledged"] = json!(reason);
            json!("acknowledged")
        }
    };
    object["standing"] = standing;
    object
}
