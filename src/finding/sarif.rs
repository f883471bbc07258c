//! Findings as SARIF, the Static Analysis Results Interchange Format, version 2.1.0 (OASIS standard, 27 March 2020).
//!
//! What a rule is, this layer does not know: its description comes in as plain text.

use std::fmt::Write as _;

use serde_json::{Map, Value, json};

use crate::source::{Position, Sources, Span};

use super::{Finding, Grade, Replacement, Slug, Standing};

/// The base of all paths: the notebook folder, wherever it stands on the reader's machine.
const BASE: &str = "NOTEBOOK";

/// A rule as SARIF describes it.
#[derive(Debug, Clone)]
pub struct Described {
    /// Its name.
    pub name: Slug,
    /// Its usual grade.
    pub grade: Grade,
    /// What it looks for, in a sentence.
    pub short: String,
    /// Why that matters.
    pub full: String,
    /// What to do instead, as plain text.
    pub help: String,
    /// The whole explanation, as Markdown.
    pub markdown: String,
}

/// All findings as one SARIF log. `rules` describes every rule that may occur, in a fixed order.
pub fn log(findings: &[Finding], rules: &[Described], sources: &Sources) -> String {
    let driver = json!({
        "name": "trayside",
        "version": env!("CARGO_PKG_VERSION"),
        "semanticVersion": env!("CARGO_PKG_VERSION"),
        "rules": rules.iter().map(rule).collect::<Vec<_>>(),
    });
    let results: Vec<Value> = findings
        .iter()
        .map(|finding| result(finding, rules, sources))
        .collect();
    let log = json!({
        "$schema": "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
        "version": "2.1.0",
        "runs": [{
            "tool": {"driver": driver},
            "columnKind": "unicodeCodePoints",
            "originalUriBaseIds": {BASE: {"description": message("The notebook folder.")}},
            "results": results,
        }],
    });
    format!("{log:#}\n")
}

/// Hazards and faults refuse a notebook, and so are errors.
fn level(grade: Grade) -> &'static str {
    match grade {
        Grade::Hazard | Grade::Fault => "error",
        Grade::Doubt => "warning",
        Grade::Hint => "note",
    }
}

fn rule(rule: &Described) -> Value {
    json!({
        "id": rule.name.as_str(),
        "shortDescription": message(&rule.short),
        "fullDescription": message(&rule.full),
        "help": {"text": escaped(&rule.help), "markdown": escaped(&rule.markdown)},
        "defaultConfiguration": {"level": level(rule.grade)},
        "properties": {"grade": rule.grade.word()},
    })
}

fn result(finding: &Finding, rules: &[Described], sources: &Sources) -> Value {
    let mut result = Map::new();
    result.insert("ruleId".to_owned(), json!(finding.rule.as_str()));
    if let Some(index) = rules.iter().position(|rule| rule.name == finding.rule) {
        result.insert("ruleIndex".to_owned(), json!(index));
    }
    result.insert("level".to_owned(), json!(level(finding.grade)));
    let said = match &finding.help {
        Some(help) => format!("{}; {help}", finding.message),
        None => finding.message.clone(),
    };
    result.insert("message".to_owned(), message(&said));
    let place = json!({"physicalLocation": physical(finding.span, sources)});
    result.insert("locations".to_owned(), json!([place]));
    if !finding.related.is_empty() {
        let related: Vec<Value> = finding
            .related
            .iter()
            .map(
                |place| json!({"physicalLocation": physical(place.span, sources), "message": message(&place.message)}),
            )
            .collect();
        result.insert("relatedLocations".to_owned(), json!(related));
    }
    if let Some(replacement) = &finding.replacement {
        let fix = fix(replacement, finding.help.as_deref(), sources);
        result.insert("fixes".to_owned(), json!([fix]));
    }
    let justification = match &finding.standing {
        Standing::Open => None,
        Standing::Expected => Some("this block is meant to show it"),
        Standing::Acknowledged(reason) => Some(reason.as_str()),
    };
    if let Some(justification) = justification {
        let suppression = json!({"kind": "inSource", "justification": justification});
        result.insert("suppressions".to_owned(), json!([suppression]));
    }
    result.insert("properties".to_owned(), json!({"grade": finding.grade.word()}));
    Value::Object(result)
}

fn fix(replacement: &Replacement, help: Option<&str>, sources: &Sources) -> Value {
    json!({
        "description": message(help.unwrap_or("write this instead")),
        "artifactChanges": [{
            "artifactLocation": artifact(replacement.span, sources),
            "replacements": [{
                "deletedRegion": region(sources.position(replacement.span)),
                "insertedContent": {"text": replacement.text},
            }],
        }],
    })
}

fn physical(span: Span, sources: &Sources) -> Value {
    json!({
        "artifactLocation": artifact(span, sources),
        "region": region(sources.position(span)),
    })
}

fn artifact(span: Span, sources: &Sources) -> Value {
    json!({"uri": uri(sources.path(span.file)), "uriBaseId": BASE})
}

/// Lines and columns from 1; the end is one past the last character, here as there.
fn region(place: Position) -> Value {
    json!({
        "startLine": place.line,
        "startColumn": place.column,
        "endLine": place.end_line,
        "endColumn": place.end_column,
    })
}

fn message(text: &str) -> Value {
    json!({ "text": escaped(text) })
}

/// Braces stand for placeholders in SARIF's message strings; a literal one is doubled.
fn escaped(text: &str) -> String {
    text.replace('{', "{{").replace('}', "}}")
}

/// A path as a relative reference of RFC 3986: everything but its unreserved characters and the slash is
/// percent-encoded, a colon too, which would else end a scheme.
fn uri(path: &str) -> String {
    let mut out = String::with_capacity(path.len());
    for byte in path.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte) {
            out.push(char::from(byte));
        } else {
            let _ = write!(out, "%{byte:02X}");
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::uri;

    #[test]
    fn paths_are_percent_encoded() {
        assert_eq!(uri("log/2031-05-03.md"), "log/2031-05-03.md");
        assert_eq!(uri("a b.md"), "a%20b.md");
        assert_eq!(uri("thé.md"), "th%C3%A9.md");
        assert_eq!(uri("c:x#y?.md"), "c%3Ax%23y%3F.md");
    }
}
