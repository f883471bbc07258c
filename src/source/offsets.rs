//! From a block's own text back to the file.
//!
//! A fence inside a list or a quote is not one slice of its file: each line has lost its indent or `>`. The map holds
//! one row per contiguous run, so a place in the block's text becomes a place in the file.

use super::{FileId, Span};

/// Rows of (offset in the block's text, offset in the file), both rising.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OffsetMap {
    file: FileId,
    rows: Vec<(u32, u32)>,
    /// Where the last run ends in the file.
    end: u32,
}

impl OffsetMap {
    /// An empty map for `file`, whose text begins at `start`.
    pub fn new(file: FileId, start: usize) -> Self {
        Self {
            file,
            rows: Vec::new(),
            end: start as u32,
        }
    }

    /// A map for text that is one slice of the file from `start`.
    pub fn slice(file: FileId, start: usize, length: usize) -> Self {
        Self {
            file,
            rows: vec![(0, start as u32)],
            end: (start + length) as u32,
        }
    }

    /// Says that the block's text from `inner` on comes from the file's `outer` range.
    pub fn push(&mut self, inner: usize, outer: std::ops::Range<usize>) {
        self.rows.push((inner as u32, outer.start as u32));
        self.end = outer.end as u32;
    }

    /// The file.
    pub fn file(&self) -> FileId {
        self.file
    }

    fn at(&self, inner: usize) -> u32 {
        let inner = inner as u32;
        let after = self.rows.partition_point(|(start, _)| *start <= inner);
        match after.checked_sub(1).and_then(|row| self.rows.get(row)) {
            Some((start, outer)) => (outer + (inner - start)).min(self.end),
            None => self.end,
        }
    }

    /// The span in the file of `start..end` in the block's text.
    ///
    /// The end is mapped through its last byte, so that a span that stops at a line's end stays on that line.
    pub fn span(&self, start: usize, end: usize) -> Span {
        let from = self.at(start);
        let to = if end > start { self.at(end - 1) + 1 } else { from };
        Span {
            file: self.file,
            start: from,
            end: to.clamp(from, self.end.max(from)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_that_lost_their_quote_marks_map_back() {
        // "> a: 1\n> b: 2\n" became "a: 1\nb: 2\n".
        let mut map = OffsetMap::new(FileId(0), 2);
        map.push(0, 2..7);
        map.push(5, 9..14);
        assert_eq!(map.span(3, 4), Span::new(FileId(0), 5, 6));
        assert_eq!(map.span(5, 6), Span::new(FileId(0), 9, 10));
        assert_eq!(map.span(0, 4), Span::new(FileId(0), 2, 6));
        assert_eq!(map.span(99, 120), Span::new(FileId(0), 14, 14));
    }
}
