//! Heading levels in order: a page's title is the first level, and none is skipped below it.

use pulldown_cmark::HeadingLevel;

/// Gives each written heading the level it is shown at.
///
/// Written `#`, `###`, `##` below a page's title are shown at 2, 3, 3: deeper than the last means one level deeper.
#[derive(Debug, Default)]
pub(super) struct Headings {
    open: Vec<HeadingLevel>,
}

impl Headings {
    /// The level, from 2 to 6, at which a heading written at `written` is shown.
    pub(super) fn enter(&mut self, written: HeadingLevel) -> usize {
        while self.open.last().is_some_and(|&last| last >= written) {
            self.open.pop();
        }
        self.open.push(written);
        (self.open.len() + 1).min(6)
    }

    /// The level for a heading just below the one we are in.
    pub(super) fn below(&self) -> usize {
        (self.open.len() + 2).min(6)
    }
}

#[cfg(test)]
mod tests {
    use super::Headings;
    use pulldown_cmark::HeadingLevel::{H1, H2, H3, H6};

    #[test]
    fn no_level_is_skipped() {
        let mut headings = Headings::default();
        assert_eq!(headings.below(), 2);
        let shown: Vec<_> = [H1, H3, H2, H6, H3, H1, H2]
            .map(|level| headings.enter(level))
            .into();
        assert_eq!(shown, [2, 3, 3, 4, 4, 2, 3]);
        assert_eq!(headings.below(), 4);
    }
}
