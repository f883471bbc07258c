//! The files of a notebook and their line indexes.

use std::sync::{Arc, OnceLock};

use super::Span;

/// A file's number within [`Sources`]. Numbers rise from file to file, and say nothing else.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(pub u32);

/// A place told to a person: lines and columns from 1, columns in Unicode characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Position {
    /// First line.
    pub line: usize,
    /// First column.
    pub column: usize,
    /// Last line.
    pub end_line: usize,
    /// One past the last column.
    pub end_column: usize,
}

/// One file as it was read.
#[derive(Debug)]
pub struct SourceFile {
    path: String,
    text: Arc<str>,
    lines: OnceLock<Vec<u32>>,
}

impl SourceFile {
    /// Path from the notebook folder, with `/` between parts.
    pub fn path(&self) -> &str {
        &self.path
    }

    /// The whole text, without a byte order mark.
    pub fn text(&self) -> &Arc<str> {
        &self.text
    }

    /// The start of each line, made when first asked for: most files never have a finding.
    fn lines(&self) -> &[u32] {
        self.lines.get_or_init(|| {
            let ends = self.text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n');
            std::iter::once(0)
                .chain(ends.map(|(at, _)| at as u32 + 1))
                .collect()
        })
    }

    /// The whole lines from the one before `start` to the one after `end`, in bytes, and the number of the first.
    pub fn lines_around(&self, start: usize, end: usize) -> (usize, std::ops::Range<usize>) {
        let lines = self.lines();
        let at = |line: usize| lines.get(line).map_or(self.text.len(), |start| *start as usize);
        let holding = |offset: usize| lines.partition_point(|start| *start as usize <= offset);
        let first = holding(start).saturating_sub(2);
        (first + 1, at(first)..at(holding(end) + 1))
    }

    /// The byte where a line and a column begin, both from 1 and the column in characters; the end of the line, or of the text,
    /// for what lies beyond.
    pub fn offset(&self, line: usize, column: usize) -> usize {
        let lines = self.lines();
        let start = lines
            .get(line.max(1) - 1)
            .map_or(self.text.len(), |start| *start as usize);
        let rest = self.text.get(start..).unwrap_or_default();
        let rest = rest.split('\n').next().unwrap_or_default();
        let before = rest.char_indices().nth(column.max(1) - 1);
        start + before.map_or(rest.len(), |(at, _)| at)
    }

    fn line_and_column(&self, offset: usize) -> (usize, usize) {
        let mut offset = offset.min(self.text.len());
        while !self.text.is_char_boundary(offset) {
            offset -= 1;
        }
        let lines = self.lines();
        let line = lines.partition_point(|start| *start as usize <= offset).max(1);
        let start = lines.get(line - 1).copied().unwrap_or(0) as usize;
        let column = self
            .text
            .get(start..offset)
            .map_or(0, |before| before.chars().count());
        (line, column + 1)
    }
}

/// How far apart numbers are that are given freely, so that later ones find room between them.
pub(super) const STEP: u32 = 1 << 10;

/// All files that were read, by number.
#[derive(Debug, Default)]
pub struct Sources {
    /// Rising.
    ids: Vec<FileId>,
    files: Vec<SourceFile>,
}

impl Sources {
    /// Takes a file in. A leading byte order mark is dropped: it is not a character of the text.
    pub fn add(&mut self, path: impl Into<String>, text: impl Into<Arc<str>>) -> FileId {
        let id = FileId(self.last().map_or(0, |last| last.0.saturating_add(STEP)));
        self.add_as(id, path.into(), text.into());
        id
    }

    /// Takes a file in by a number that is above all others.
    pub(super) fn add_as(&mut self, id: FileId, path: String, mut text: Arc<str>) {
        debug_assert!(self.last().is_none_or(|last| last < id), "numbers rise");
        if let Some(rest) = text.strip_prefix('\u{feff}') {
            text = rest.into();
        }
        self.ids.push(id);
        self.files.push(SourceFile {
            path,
            text,
            lines: OnceLock::new(),
        });
    }

    /// The highest number.
    pub(super) fn last(&self) -> Option<FileId> {
        self.ids.last().copied()
    }

    /// The file of that number, if these sources hold it.
    pub fn get(&self, id: FileId) -> Option<&SourceFile> {
        // Where it stands if all numbers were given freely, which they mostly were.
        let likely = (id.0 / STEP) as usize;
        let at = match self.ids.get(likely) {
            Some(there) if *there == id => likely,
            _ => self.ids.binary_search(&id).ok()?,
        };
        self.files.get(at)
    }

    /// The path of a file, or nothing for an unknown number.
    pub fn path(&self, id: FileId) -> &str {
        self.get(id).map_or("", SourceFile::path)
    }

    /// The text under a span.
    pub fn slice(&self, span: Span) -> &str {
        self.get(span.file)
            .and_then(|file| file.text.get(span.start as usize..span.end as usize))
            .unwrap_or("")
    }

    /// Where a span lies, in lines and columns.
    pub fn position(&self, span: Span) -> Position {
        let Some(file) = self.get(span.file) else {
            return Position {
                line: 1,
                column: 1,
                end_line: 1,
                end_column: 1,
            };
        };
        let (line, column) = file.line_and_column(span.start as usize);
        let (end_line, end_column) = file.line_and_column(span.end as usize);
        Position {
            line,
            column,
            end_line,
            end_column,
        }
    }

    /// Every file with its number, in order.
    pub fn iter(&self) -> impl Iterator<Item = (FileId, &SourceFile)> {
        self.ids.iter().copied().zip(&self.files)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn position(text: &str, start: usize, end: usize) -> (usize, usize, usize, usize) {
        let mut sources = Sources::default();
        let file = sources.add("a.md", text);
        let p = sources.position(Span::new(file, start, end));
        (p.line, p.column, p.end_line, p.end_column)
    }

    #[test]
    fn columns_count_characters() {
        assert_eq!(position("½ tsp\nà b", 0, 2), (1, 1, 1, 2));
        assert_eq!(position("½ tsp\nà b", 7, 9), (2, 1, 2, 2));
        assert_eq!(position("½ tsp\nà b", 10, 11), (2, 3, 2, 4));
    }

    #[test]
    fn carriage_returns_do_not_start_lines() {
        assert_eq!(position("a\r\nb", 3, 4), (2, 1, 2, 2));
    }

    #[test]
    fn a_byte_order_mark_is_no_column() {
        let mut sources = Sources::default();
        let file = sources.add("a.md", "\u{feff}abc");
        assert_eq!(sources.slice(Span::new(file, 0, 1)), "a");
        assert_eq!(sources.position(Span::new(file, 0, 1)).column, 1);
    }

    #[test]
    fn lines_around_a_place_are_whole() {
        let mut sources = Sources::default();
        let file = sources.add("a.md", "one\ntwo\nthree\nfour\nfive");
        let file = sources.get(file).unwrap();
        for (start, end, first, text) in [
            (9, 11, 2, "two\nthree\nfour\n"),
            (0, 1, 1, "one\ntwo\n"),
            (20, 23, 4, "four\nfive"),
            (0, 90, 1, "one\ntwo\nthree\nfour\nfive"),
        ] {
            let (line, bytes) = file.lines_around(start, end);
            assert_eq!((line, file.text().get(bytes)), (first, Some(text)));
        }
    }

    #[test]
    fn past_the_end_is_the_end() {
        assert_eq!(position("ab", 9, 12), (1, 3, 1, 3));
    }
}
