//! The rhythm in the words that say how a sheet is moved.

use serde::Serialize;

use crate::units::{Dimension, Style, parse};

/// How a sheet is moved in its tray.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Agitation {
    /// As it was written.
    pub words: String,
    /// Seconds from the beginning of one stretch to the next, where the words name a rhythm.
    pub every: Option<f64>,
    /// How long a stretch lasts, in seconds, where the words say so.
    pub lasts: Option<f64>,
    /// How long it is moved at the beginning without a rest, in seconds, where the words say so.
    pub first: Option<f64>,
}

/// What stands before a beat, in the languages that the notebook is printed in.
const EVERY: [&str; 6] = ["every", "each", "alle", "jede", "jeder", "jeden"];
/// What stands before a stretch at the beginning.
const FIRST: [&str; 3] = ["first", "erste", "ersten"];

impl Agitation {
    /// Reads words such as `rock 10 s every minute` or `keep it moving for the first half minute`. Words that name no time are
    /// kept as they are: whoever shows them cannot prompt, and does not guess.
    pub(super) fn read(words: &str, style: Style) -> Self {
        let words = words.trim();
        let lower = words.to_lowercase();
        let list: Vec<&str> = lower
            .split([' ', ',', ';', '\u{a0}', '\u{202f}'])
            .filter(|word| !word.is_empty())
            .collect();
        let at = |word: &str| list.iter().position(|known| *known == word);
        let after = |place: usize| seconds(list.get(place + 1..)?, style);
        let first_of = |words: &[&str]| words.iter().find_map(|word| at(word));
        let beat_at = first_of(&EVERY);
        let beat = beat_at.and_then(after).filter(|every| *every >= 1.0);
        // The stretch stands right before the beat: `10 s every minute`.
        let before = beat_at.and_then(|at| list.get(..at)).unwrap_or(&[]);
        let lasts = (0..before.len()).find_map(|from| whole_time(before.get(from..)?, style));
        Self {
            words: words.to_owned(),
            every: beat,
            lasts: lasts.filter(|lasts| beat.is_some_and(|every| *lasts <= every)),
            first: first_of(&FIRST).and_then(after),
        }
    }
}

/// The time that words begin with: `30 s`, `minute`, `half minute`, `2 min`; the longest run of words that is one.
fn seconds(words: &[&str], style: Style) -> Option<f64> {
    (1..=words.len().min(4))
        .rev()
        .find_map(|count| whole_time(words.get(..count)?, style))
}

/// The time that words are.
fn whole_time(words: &[&str], style: Style) -> Option<f64> {
    match words {
        ["minute"] => Some(60.0),
        ["half" | "halbe", "minute"] | ["half", "a", "minute"] | ["half-minute"] => Some(30.0),
        ["second" | "sekunde"] => Some(1.0),
        _ => {
            let amount = parse(&words.join(" "), &[Dimension::Time], style).ok()?;
            (amount.range.best > 0.0).then_some(amount.range.best)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(words: &str) -> (Option<f64>, Option<f64>, Option<f64>) {
        let agitation = Agitation::read(words, Style::default());
        assert_eq!(agitation.words, words);
        (agitation.every, agitation.lasts, agitation.first)
    }

    #[test]
    fn a_rhythm_is_read() {
        assert_eq!(read("rock 10 s every minute"), (Some(60.0), Some(10.0), None));
        assert_eq!(read("rock every half minute"), (Some(30.0), None, None));
        assert_eq!(read("lift a corner every 15 s"), (Some(15.0), None, None));
        assert_eq!(
            read("keep it moving for the first half minute"),
            (None, None, Some(30.0))
        );
        assert_eq!(
            read("rock for the first 30 s, then 5 s every 30 s"),
            (Some(30.0), Some(5.0), Some(30.0))
        );
        assert_eq!(read("Rock 5 s every 1 min 30 s"), (Some(90.0), Some(5.0), None));
        assert_eq!(read("10 s alle 60 s kippen"), (Some(60.0), Some(10.0), None));
        assert_eq!(
            read("die erste halbe Minute bewegen, dann 5 s jede Minute"),
            (Some(60.0), Some(5.0), Some(30.0))
        );
    }

    #[test]
    fn words_without_a_time_prompt_nothing() {
        for words in [
            "rock",
            "rock all the time",
            "now and then",
            "lift one corner, then the next",
            "every so often",
            "alle Ecken heben",
            "ständig bewegen",
            "",
        ] {
            assert_eq!(read(words), (None, None, None), "{words}");
        }
        // A stretch that is longer than its beat is no stretch.
        assert_eq!(read("rock 2 min every minute"), (Some(60.0), None, None));
    }
}
