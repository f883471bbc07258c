//! The index of names: one look-up for a hit, a search of all names only for a miss.

use std::collections::BTreeMap;

use super::fold;
use super::load::LoadError;

/// What a name stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Target {
    /// The material at this place.
    Material(usize),
    /// The pure substance at this place, by a laboratory sign.
    Pure(usize),
    /// The family with this id.
    Family(String),
    /// The word with this key.
    Ambiguous(String),
}

/// A name as it was written, and what rules it out quickly as the nearest.
#[derive(Debug, Clone)]
struct Written {
    name: String,
    length: usize,
    letters: u64,
}

/// Folded names and what they stand for.
#[derive(Debug, Clone, Default)]
pub(super) struct Names {
    targets: BTreeMap<String, Target>,
    /// Squashed and as written, for the nearest name.
    written: BTreeMap<String, Written>,
}

impl Names {
    /// What `name` stands for.
    pub(super) fn get(&self, name: &str) -> Option<&Target> {
        self.get_words(&fold::words(name))
    }

    /// What a name of these folded words stands for.
    pub(super) fn get_words(&self, words: &[String]) -> Option<&Target> {
        let sorted = self.targets.get(&fold::sorted(words));
        sorted.or_else(|| self.targets.get(&fold::squashed(words)))
    }

    /// Enters `name`; an error if it stands for something else already.
    pub(super) fn enter(&mut self, name: &str, target: &Target) -> Result<(), LoadError> {
        for key in keys(name) {
            if let Some(other) = self.targets.get(&key).filter(|other| *other != target) {
                return Err(LoadError::new(format!(
                    "the name `{name}` stands for {other:?} and for {target:?}"
                )));
            }
        }
        self.replace(name, target);
        Ok(())
    }

    /// Enters `name`, whatever it stood for before.
    pub(super) fn replace(&mut self, name: &str, target: &Target) {
        for key in keys(name) {
            self.targets.insert(key, target.clone());
        }
        let squashed = fold::squashed(&fold::words(name));
        let written = Written {
            name: name.to_owned(),
            length: squashed.chars().count(),
            letters: letters(&squashed),
        };
        self.written.entry(squashed).or_insert(written);
    }

    /// Every folded name that stands for `target`.
    pub(super) fn of(&self, target: &Target) -> Vec<String> {
        let all = self.targets.iter().filter(|(_, other)| *other == target);
        all.map(|(key, _)| key.clone()).collect()
    }

    /// Lets an already folded name stand for `target`.
    pub(super) fn replace_key(&mut self, key: String, target: &Target) {
        self.targets.insert(key, target.clone());
    }

    /// Enters `name` with `word` before and behind it, where that is not a name already.
    pub(super) fn enter_with(&mut self, name: &str, word: &str, target: &Target) {
        for spoken in [format!("{word} {name}"), format!("{name} {word}")] {
            for key in keys(&spoken) {
                self.targets.entry(key).or_insert_with(|| target.clone());
            }
        }
    }

    /// The name most like `name`, if one differs in no more than about a quarter of its letters.
    pub(super) fn nearest(&self, name: &str) -> Option<String> {
        const LONGEST: usize = 60;
        // Among more names than this that are alike, none is the one that was meant.
        const MOST: usize = 400;
        let asked = fold::squashed(&fold::words(name));
        let length = asked.chars().count();
        if !(3..=LONGEST).contains(&length) {
            return None;
        }
        let limit = ((length + 2) / 4).min(3);
        let asked_letters = letters(&asked);
        let candidates = self.written.iter().filter(|(_, written)| {
            // A slip puts in at most one new letter and takes out at most one.
            let strange = (written.letters ^ asked_letters).count_ones() as usize;
            written.length.abs_diff(length) <= limit && strange <= 2 * limit
        });
        let candidates: Vec<_> = candidates.take(MOST + 1).collect();
        if candidates.len() > MOST {
            return None;
        }
        candidates
            .into_iter()
            .map(|(key, written)| (strsim::damerau_levenshtein(key, &asked), &written.name))
            .filter(|(distance, _)| *distance <= limit)
            .min()
            .map(|(_, written)| written.clone())
    }
}

/// Which letters and digits occur in a folded name, a bit for each; all others share one.
fn letters(folded: &str) -> u64 {
    folded
        .chars()
        .fold(0, |seen, c| seen | 1 << c.to_digit(36).unwrap_or(36))
}

fn keys(name: &str) -> [String; 2] {
    let words = fold::words(name);
    [fold::sorted(&words), fold::squashed(&words)]
}
