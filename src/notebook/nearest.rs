//! The nearest right word to a mistyped one.

/// Folds what typing varies in: case, and hyphens or underscores for spaces.
pub(super) fn fold(word: &str) -> String {
    word.trim().to_lowercase().replace(['-', '_'], " ")
}

/// The candidate that was most likely meant, if one is near enough: a third of the letters may differ, with at least
/// one and at most three; among equals the first.
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let folded = fold(word);
    let length = folded.chars().count();
    let allowed = (length / 3).clamp(1, 3);
    candidates
        .into_iter()
        .map(|candidate| (strsim::damerau_levenshtein(&folded, &fold(candidate)), candidate))
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
}
