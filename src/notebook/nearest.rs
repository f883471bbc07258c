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

/// The candidate that was meant by a word that is no slip of the pen: `temp` for `temperature`. None where several begin so.
pub(super) fn shortened<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let folded = plain(word);
    let long = folded.chars().count() >= LEAST;
    only(candidates, |candidate| {
        long && plain(candidate).starts_with(&folded)
    })
}

/// The candidate that shares its words with another way to say it: `Stop bath` for `stop`, `sunny` for `sun`, `shade` for
/// `open shade`. None where several do.
pub(super) fn akin<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let folded = plain(word);
    let whole = |text: &str, part: &str| text.split(' ').any(|word| word == part);
    only(candidates, |candidate| {
        let candidate = plain(candidate);
        let shorter = folded.chars().count().min(candidate.chars().count());
        shorter >= LEAST
            && (folded.starts_with(&candidate)
                || candidate.starts_with(&folded)
                || whole(&folded, &candidate)
                || whole(&candidate, &folded))
    })
}

/// Letters that a word has at least before others are compared by how they begin.
const LEAST: usize = 3;

fn only<'c>(
    candidates: impl IntoIterator<Item = &'c str>,
    mut is_meant: impl FnMut(&str) -> bool,
) -> Option<&'c str> {
    let mut meant = candidates.into_iter().filter(|candidate| is_meant(candidate));
    let first = meant.next()?;
    meant.next().is_none().then_some(first)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_slip_is_known_by_how_it_begins_or_by_its_words() {
        let keys = ["temperature", "time", "agitation", "at"];
        assert_eq!(shortened("temp", keys), Some("temperature"));
        assert_eq!(shortened("Agit", keys), Some("agitation"));
        assert_eq!(shortened("t", keys), None);
        assert_eq!(shortened("hands", keys), None);
        assert_eq!(shortened("cap", ["capacity", "caption"]), None);
        assert_eq!(akin("Stop bath", ["developer", "stop", "stock"]), Some("stop"));
        let scenes = ["sun", "hazy sun", "snow in sun", "cloudy bright", "open shade"];
        for (written, meant) in [
            ("sunny", Some("sun")),
            ("cloudy", Some("cloudy bright")),
            ("shade", Some("open shade")),
        ] {
            assert_eq!(akin(written, scenes), meant, "{written}");
        }
        assert_eq!(akin("bright", ["bright sun", "cloudy bright"]), None);
        assert_eq!(akin("rain", scenes), None);
    }

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
