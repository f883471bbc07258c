//! The words of a folded text, as the search compares them.

/// The most characters of a word that are told apart: longer than any word, shorter than what a hostile page may hold.
pub(super) const LONGEST: usize = 40;

/// Cuts a folded text into its words: runs of letters and digits. In scripts that write no spaces every character is a word.
pub(super) fn words(folded: &str) -> impl Iterator<Item = &str> {
    folded
        .split(|c: char| !c.is_alphanumeric())
        .flat_map(|run| Runs { rest: run })
        .map(shortened)
}

/// A word without what is beyond [`LONGEST`].
fn shortened(word: &str) -> &str {
    match word.char_indices().nth(LONGEST) {
        Some((end, _)) => word.get(..end).unwrap_or(word),
        None => word,
    }
}

/// A run of letters, cut at characters that are words of their own.
struct Runs<'t> {
    rest: &'t str,
}

impl<'t> Iterator for Runs<'t> {
    type Item = &'t str;

    fn next(&mut self) -> Option<&'t str> {
        let first = self.rest.chars().next()?;
        let end = if stands_alone(first) {
            first.len_utf8()
        } else {
            self.rest.find(stands_alone).unwrap_or(self.rest.len())
        };
        let (word, rest) = self.rest.split_at(end);
        self.rest = rest;
        Some(word)
    }
}

/// Thai, Lao, Burmese and Khmer letters, kana, and the ideographs of the basic plane and beyond.
fn stands_alone(c: char) -> bool {
    matches!(c,
        '\u{e00}'..='\u{eff}' | '\u{1000}'..='\u{109f}' | '\u{1780}'..='\u{17ff}'
        | '\u{3040}'..='\u{30ff}' | '\u{3400}'..='\u{4dbf}' | '\u{4e00}'..='\u{9fff}' | '\u{20000}'..='\u{3ffff}')
}

#[cfg(test)]
mod tests {
    use super::{LONGEST, words};
    use crate::syntax::fold;

    fn cut(text: &str) -> Vec<String> {
        words(&fold(text)).map(str::to_owned).collect()
    }

    #[test]
    fn words_are_runs_of_letters_and_digits() {
        assert_eq!(cut("f/216, 1½ tsp"), ["f", "216", "11", "2", "tsp"]);
        assert_eq!(cut("rosemary-soda.pH"), ["rosemary", "soda", "ph"]);
        assert_eq!(cut("写真 ok"), ["写", "真", "ok"]);
        assert_eq!(cut("— …  "), Vec::<String>::new());
        assert_eq!(cut(&"a".repeat(500)), ["a".repeat(LONGEST)]);
    }
}
