//! Indents with tabs, read as the spaces that they stand for.

use std::borrow::Cow;

use crate::finding::{Finding, slug};
use crate::source::{OffsetMap, Span};

/// Reports the first tab in an indent and puts spaces for each, as many as fit the lines above, so that the rest can be
/// read. Also returns the lines that had some.
pub(super) fn without_indenting_tabs<'t>(
    text: &'t str,
    map: &'t OffsetMap,
    findings: &mut Vec<Finding>,
) -> (Cow<'t, str>, Cow<'t, OffsetMap>, Vec<Span>) {
    if !text.contains('\t') {
        return (Cow::Borrowed(text), Cow::Borrowed(map), Vec::new());
    }
    let mut spaced = String::with_capacity(text.len() + 16);
    let mut moved = OffsetMap::new(map.file(), map.span(0, 0).start as usize);
    let mut first = None;
    let mut tabbed = Vec::new();
    let mut at = 0;
    let mut widths = TabWidths::default();
    for line in text.split_inclusive('\n') {
        let indent = line.len() - line.trim_start_matches([' ', '\t']).len();
        let blank = line.trim().is_empty();
        let tab = line.bytes().take(indent).position(|byte| byte == b'\t');
        if let Some(tab) = tab.filter(|_| !blank) {
            tabbed.push(map.span(at, at + line.len()));
            first.get_or_insert(map.span(at + tab, at + tab + 1));
        }
        let width = if blank { indent } else { widths.of(line, indent) };
        for offset in 0..width {
            let from = at + offset.min(indent.saturating_sub(1));
            let place = map.span(from, from + 1);
            moved.push(spaced.len(), place.start as usize..place.end as usize);
            spaced.push(' ');
        }
        let rest = map.span(at + indent, at + line.len());
        moved.push(spaced.len(), rest.start as usize..rest.end as usize);
        spaced.push_str(line.get(indent..).unwrap_or(""));
        at += line.len();
    }
    if let Some(place) = first {
        findings.push(
            Finding::fault(slug::YAML_TAB, place, "a tab stands in the indent")
                .help("indent with spaces: tabs have no agreed width"),
        );
    }
    (Cow::Owned(spaced), Cow::Owned(moved), tabbed)
}

/// How many spaces an indent with tabs stands for: it must fit the lines round it, whatever the editor showed.
#[derive(Default)]
struct TabWidths<'t> {
    /// Indents with tabs since the last line without, and what they were taken for.
    seen: Vec<(&'t str, usize)>,
    /// Where the keys of the line before begin, and whether the line ends with a colon.
    keys_at: usize,
    opens: bool,
}

impl<'t> TabWidths<'t> {
    fn of(&mut self, line: &'t str, indent: usize) -> usize {
        let (lead, rest) = line.split_at_checked(indent).unwrap_or(("", line));
        let width = if !lead.contains('\t') {
            self.seen.clear();
            indent
        } else if let Some((_, width)) = self.seen.iter().find(|(known, _)| *known == lead) {
            *width
        } else {
            let plain = lead.len() + lead.bytes().filter(|byte| *byte == b'\t').count();
            let width = match (self.opens, self.seen.is_empty()) {
                (true, _) => plain.max(self.keys_at + 2),
                (false, true) => self.keys_at,
                (false, false) => plain,
            };
            self.seen.push((lead, width));
            width
        };
        let dashes = rest.len() - rest.trim_start_matches(['-', ' ']).len();
        self.keys_at = width + if rest.starts_with("- ") { dashes } else { 0 };
        self.opens = rest.trim_end().ends_with(':');
        width
    }
}
