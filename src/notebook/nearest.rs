//! The nearest right word to a mistyped one.

use crate::syntax;

/// Folds what typing varies in: case, and hyphens or underscores for spaces.
pub(super) fn fold(word: &str) -> String {
    word.trim().to_lowercase().replace(['-', '_'], " ")
}

/// The same without accents.
fn plain(word: &str) -> String {
    syntax::fold(&fold(word))
}

/// The candidate that goes on where a word ends, at the end of a part: `rain` is the beginning of `rain-on-glass`. None where
/// several do.
pub fn going_on<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let begins = format!("{} ", plain(word));
    let mut going_on = candidates
        .into_iter()
        .filter(|candidate| plain(candidate).starts_with(&begins));
    let first = going_on.next()?;
    going_on.all(|other| other == first).then_some(first)
}

/// The candidate that was most likely meant, if one is near enough: a third of the letters may differ, with at least
/// one and at most three; among equals the first. Accents are no difference: `the-noir` is `thé-noir`.
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let folded = plain(word);
    let length = folded.chars().count();
    let allowed = (length / 3).clamp(1, 3);
    candidates
        .into_iter()
        .map(|candidate| (strsim::damerau_levenshtein(&folded, &plain(candidate)), candidate))
        .filter(|(distance, candidate)| *distance <= allowed && *distance < candidate.chars().count())
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_mended_and_strangers_are_not() {
        let keys = ["makes", "role", "parts", "steps", "use", "keeps"];
        assert_eq!(nearest("mkaes", keys), Some("makes"));
        assert_eq!(nearest("Makes", keys), Some("makes"));
        assert_eq!(nearest("stepps", keys), Some("steps"));
        assert_eq!(nearest("volume", keys), None);
        assert_eq!(nearest("a", ["b"]), None);
    }

    #[test]
    fn accents_are_no_difference() {
        let ids = ["straße-für-fußgänger", "thé-noir"];
        assert_eq!(nearest("strasse-fuer-fussgaenger", ids), Some(ids[0]));
        assert_eq!(nearest("the-noir", ids), Some(ids[1]));
    }

    #[test]
    fn one_that_goes_on_is_meant_and_of_two_neither() {
        let ids = ["straße-bei-regen", "stop"];
        assert_eq!(going_on("strasse", ids), Some(ids[0]));
        assert_eq!(going_on("stra", ids), None);
        assert_eq!(going_on("", ids), None);
        assert_eq!(going_on("strasse", ["straße-a", "straße-b"]), None);
    }
}
