//! Fences that were never closed, taken apart where the author thought they ended.
//!
//! A block without its closing marks swallows what follows, up to the closing marks of the next block. No value may
//! begin with a back-tick at the left edge, so such a line tells where the next fence begins or this one was to end.

use std::borrow::Cow;

use crate::source::{OffsetMap, Span, Spanned};
use crate::syntax::Fence;

/// The fence as it is where it ends well; else the blocks in it, of which the first at least is not closed.
pub(super) fn apart(fence: &Fence, is_kind: impl Fn(&str) -> bool) -> Cow<'_, [Fence]> {
    let whole = Cow::Borrowed(std::slice::from_ref(fence));
    let first_word = |info: &str| info.split_whitespace().next().unwrap_or("").to_owned();
    let marked = || fence.text.lines().any(|line| mark(line).is_some());
    if (fence.closed && !marked()) || !is_kind(&first_word(&fence.info.value)) {
        return whole;
    }
    let mut found = Vec::new();
    let mut open = Some(Piece {
        info: fence.info.clone(),
        start: fence.span.start,
        text: 0..0,
        first: true,
    });
    let mut at = 0;
    for line in fence.text.split_inclusive('\n') {
        let next = at + line.len();
        match mark(line) {
            None => {
                if let Some(piece) = &mut open {
                    piece.text.end = next;
                }
            }
            Some(info) => {
                if let Some(piece) = open.take() {
                    let closed = info.is_empty() && !piece.first && line.trim_end().len() >= 3;
                    found.push(piece.close(fence, closed));
                }
                if is_kind(&first_word(info)) {
                    let from = at + line.find(info).unwrap_or(0);
                    open = Some(Piece {
                        info: Spanned::new(info.to_owned(), fence.map.span(from, from + info.len())),
                        start: fence.map.span(at, at).start,
                        text: next..next,
                        first: false,
                    });
                }
            }
        }
        at = next;
    }
    if let Some(piece) = open {
        found.push(piece.close(fence, fence.closed));
    }
    Cow::Owned(found)
}

/// What stands after the marks of a line that begins with some.
fn mark(line: &str) -> Option<&str> {
    let marks = line.len() - line.trim_start_matches('`').len();
    let tildes = line.len() - line.trim_start_matches('~').len();
    (marks >= 2 || tildes >= 3).then(|| line.get(marks.max(tildes)..).unwrap_or("").trim())
}

/// One block within a fence.
struct Piece {
    info: Spanned<String>,
    start: u32,
    text: std::ops::Range<usize>,
    first: bool,
}

impl Piece {
    fn close(self, fence: &Fence, closed: bool) -> Fence {
        let all = fence.text.get(self.text.clone()).unwrap_or("");
        let text = if closed { all } else { before_prose(all) };
        let start = self.start as usize;
        let mut map = OffsetMap::new(fence.span.file, start);
        let mut at = 0;
        for line in text.split_inclusive('\n') {
            let place = fence
                .map
                .span(self.text.start + at, self.text.start + at + line.len());
            map.push(at, place.start as usize..place.end as usize);
            at += line.len();
        }
        let end = match text.len() {
            0 => self.info.span.end,
            length => fence.map.span(self.text.start, self.text.start + length).end,
        };
        Fence {
            info: self.info,
            span: Span::new(fence.span.file, start, end as usize),
            text: text.to_owned(),
            map,
            closed,
        }
    }
}

/// The text up to the first blank line after which something begins that is no key.
fn before_prose(text: &str) -> &str {
    let mut at = 0;
    let mut blank = None;
    for line in text.split_inclusive('\n') {
        if line.trim().is_empty() {
            blank.get_or_insert(at);
        } else if let Some(blank) = blank.take()
            && !begins_key(line)
        {
            return text.get(..blank).unwrap_or(text);
        }
        at += line.len();
    }
    text
}

/// Whether a line is indented or begins with a key, which are all in lower case.
fn begins_key(line: &str) -> bool {
    let Some((key, rest)) = line.split_once(':') else {
        return line.starts_with([' ', '\t']);
    };
    let lower = key.starts_with(|c: char| c.is_lowercase() || c == ' ');
    lower && (rest.is_empty() || rest.starts_with(char::is_whitespace))
}
