//! YAML events to [`Node`]s, gathering every mistake on the way.
//!
//! A block that breaks in one place is read on at its next top-level key, so that one forgotten quote does not hide the
//! rest of a recipe.

mod quotes;
mod reader;
mod scan_error;
mod tabs;

use crate::finding::{Finding, slug};
use crate::source::OffsetMap;

use super::node::Node;
use quotes::{open_quotes, without};
use reader::read_all;
use tabs::without_indenting_tabs;

/// Lists and maps inside each other, at most. The language itself needs five.
const NESTING: usize = 32;

/// A YAML text as a tree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Document {
    /// The value; [`NodeKind::Empty`](super::NodeKind::Empty) for an empty text.
    pub node: Node,
    /// Whether parts could not be read: then what is missing is no finding of its own.
    pub broken: bool,
}

/// Reads `text`, whose places in the file `map` knows.
pub fn read_yaml(text: &str, map: &OffsetMap, findings: &mut Vec<Finding>) -> Document {
    let (text, map, tabbed) = without_indenting_tabs(text, map, findings);
    let before = findings.len();
    let document = read_all(&text, &map, false, findings);
    // Whatever else does not fit on a line that was indented with tabs comes from the tabs.
    let from_tabs = |finding: &Finding| {
        let at = finding.span.start;
        finding.rule == slug::YAML_BROKEN && tabbed.iter().any(|line| line.start <= at && at < line.end)
    };
    if !tabbed.is_empty() {
        findings.retain(|finding| !from_tabs(finding));
    }
    if !document.broken {
        return document;
    }
    let quotes = open_quotes(&text);
    if quotes.is_empty() {
        return document;
    }
    // A quote without its end swallows lines until the next quote, where the parser stumbles: what is to be mended is
    // the first, and the lines between are no part of it.
    findings.truncate(before);
    for quote in &quotes {
        let line = text.get(quote.clone()).unwrap_or("");
        let twice = line.chars().skip(1).any(|c| line.starts_with(c));
        let (message, help) = if twice {
            (
                "this quote ends before the value does",
                "put the whole value in quotes of the other kind",
            )
        } else {
            ("this quote is never closed", "close the quote on the same line")
        };
        let span = map.span(quote.start, quote.start + 1);
        findings.push(Finding::fault(slug::YAML_BROKEN, span, message).help(help));
    }
    read_all(&without(&text, &quotes), &map, true, findings)
}

#[cfg(test)]
mod tests {
    use super::super::NodeKind;
    use super::*;
    use crate::source::{FileId, Sources};

    fn read(text: &str) -> (Document, Vec<(String, String)>) {
        let mut sources = Sources::default();
        let file = sources.add("b", text);
        let mut findings = Vec::new();
        let document = read_yaml(text, &OffsetMap::slice(file, 0, text.len()), &mut findings);
        let seen = findings
            .iter()
            .map(|f| (f.rule.to_string(), sources.slice(f.span).to_owned()))
            .collect();
        (document, seen)
    }

    fn found(rule: &str, word: &str) -> Vec<(String, String)> {
        vec![(rule.to_owned(), word.to_owned())]
    }

    #[test]
    fn what_follows_a_mistake_is_still_read() {
        let (document, seen) = read("title: 'Tea\nmakes: 1 l\nadd:\n  borax: 2 g\n");
        assert_eq!(seen, found("yaml-broken", "'"));
        assert_eq!(document.node.get("makes").and_then(Node::text), Some("1 l"));
        assert!(document.broken);
    }

    #[test]
    fn a_repeated_key_is_reported_at_the_second() {
        let (document, seen) = read("makes: 1 l\nmakes: 2 l\n");
        assert_eq!(seen, found("key-repeated", "makes"));
        assert_eq!(document.node.get("makes").and_then(Node::text), Some("1 l"));
    }

    #[test]
    fn tabs_are_reported_and_read() {
        let (document, seen) = read("add:\n\tborax: 2 g\n\tsalt: 1 g\n");
        assert_eq!(seen, found("yaml-tab", "\t"));
        assert_eq!(
            document
                .node
                .get("add")
                .and_then(|add| add.get("salt"))
                .and_then(Node::text),
            Some("1 g")
        );
    }

    #[test]
    fn references_between_values_are_refused_once() {
        let bomb = "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b, *b]\n";
        let (_, seen) = read(bomb);
        assert_eq!(seen.len(), 1);
        assert_eq!(seen[0].0, "yaml-anchor");
    }

    #[test]
    fn deep_nesting_is_refused() {
        let (_, seen) = read(&format!("a: {}{}", "[".repeat(5000), "]".repeat(5000)));
        assert_eq!(seen[0].0, "yaml-too-deep");
    }

    #[test]
    fn values_keep_their_text() {
        let (document, seen) = read("a: NO\nb: 012\nc: 1:30\nd:\ne: ~\n");
        assert!(seen.is_empty());
        assert_eq!(document.node.get("a").and_then(Node::text), Some("NO"));
        assert_eq!(document.node.get("b").and_then(Node::text), Some("012"));
        assert_eq!(document.node.get("c").and_then(Node::text), Some("1:30"));
        assert_eq!(
            document.node.get("d").map(|node| &node.kind),
            Some(&NodeKind::Empty)
        );
        assert_eq!(
            document.node.get("e").map(|node| &node.kind),
            Some(&NodeKind::Empty)
        );
    }

    proptest::proptest! {
        #[test]
        fn no_text_panics_and_spans_stay_inside(text in "[ -~\n\t½é:#'\"{}\\[\\]&*!|>-]{0,120}") {
            let mut findings = Vec::new();
            let document = read_yaml(&text, &OffsetMap::slice(FileId(0), 0, text.len()), &mut findings);
            proptest::prop_assert!(document.node.span.end as usize <= text.len());
            for finding in findings {
                proptest::prop_assert!(finding.span.end as usize <= text.len());
                proptest::prop_assert!(text.is_char_boundary(finding.span.start as usize));
            }
        }
    }
}
