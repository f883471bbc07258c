//! Files as text: which file, where in it, and how a place is told to a person.
//!
//! Everything above refers to places by [`Span`]; only this module turns a span into a line and a column.

mod by_name;
mod files;
mod fingerprint;
mod fnv;
mod intake;
mod offsets;

pub use by_name::ByName;
pub use files::{FileId, Position, SourceFile, Sources};
pub use fingerprint::Fingerprint;
pub use fnv::{fnv_32, fnv_64};
pub use intake::Intake;
pub use offsets::OffsetMap;

/// A stretch of bytes in one file. `start <= end`; both lie on character boundaries of the file's text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A span over `start..end` of `file`.
    pub fn new(file: FileId, start: usize, end: usize) -> Self {
        Self {
            file,
            start: start as u32,
            end: end.max(start) as u32,
        }
    }

    /// The empty span at the start of this one.
    #[must_use]
    pub fn head(self) -> Self {
        Self {
            end: self.start,
            ..self
        }
    }

    /// Whether another lies within this one.
    pub fn holds(self, other: Self) -> bool {
        self.file == other.file && self.start <= other.start && other.end <= self.end
    }

    /// The smallest span that covers both; of `self` alone when they lie in different files.
    #[must_use]
    pub fn to(self, other: Self) -> Self {
        if self.file != other.file {
            return self;
        }
        Self {
            file: self.file,
            start: self.start.min(other.start),
            end: self.end.max(other.end),
        }
    }
}

/// A value and the place where it was written.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spanned<T> {
    /// What was written.
    pub value: T,
    /// Where.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// A value at a place.
    pub fn new(value: T, span: Span) -> Self {
        Self { value, span }
    }

    /// The same place with another value.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Spanned<U> {
        Spanned {
            value: change(self.value),
            span: self.span,
        }
    }

    /// A borrowed view of the value, with its place.
    pub fn as_ref(&self) -> Spanned<&T> {
        Spanned {
            value: &self.value,
            span: self.span,
        }
    }
}

impl Spanned<String> {
    /// The place of some bytes of the value; the whole place where it reads otherwise than it was written, as between
    /// quotation marks.
    pub fn part(&self, bytes: std::ops::Range<usize>) -> Span {
        let as_written = (self.span.end - self.span.start) as usize == self.value.len();
        if !as_written || bytes.end > self.value.len() {
            return self.span;
        }
        let start = self.span.start as usize;
        Span::new(self.span.file, start + bytes.start, start + bytes.end)
    }
}

impl<T> std::ops::Deref for Spanned<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.value
    }
}
