//! What a step is done in, in English: `3 l jug` as `in a 3 l jug`, and `an open jug` as it stands.

/// With the article that its writer gave it, or else the one that its first sound takes.
pub(super) fn in_vessel(vessel: &str) -> String {
    let first = vessel
        .split_whitespace()
        .next()
        .unwrap_or_default()
        .to_lowercase();
    if ["a", "an", "the", "my", "our", "your"].contains(&first.as_str()) {
        return format!("in {vessel}");
    }
    let article = if begins_with_vowel(&first) { "an" } else { "a" };
    format!("in {article} {vessel}")
}

/// Whether a word or a number is spoken with a vowel first: eight, eighty, eleven and eighteen are, one and a unit are not.
fn begins_with_vowel(word: &str) -> bool {
    let digits = word.bytes().take_while(u8::is_ascii_digit).count();
    match word.get(..digits) {
        Some(number) if !number.is_empty() => number.starts_with('8') || number == "11" || number == "18",
        _ => {
            word.starts_with(['a', 'e', 'i', 'o', 'u'])
                && !["one", "once", "eu", "uni", "use"]
                    .iter()
                    .any(|start| word.starts_with(start))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::in_vessel;

    #[test]
    fn an_article_is_the_writer_s_or_the_one_that_is_spoken() {
        for (vessel, told) in [
            ("3 l jug", "in a 3 l jug"),
            ("3\u{a0}l jug", "in a 3\u{a0}l jug"),
            ("8 l bucket", "in an 8 l bucket"),
            ("11 l bucket", "in an 11 l bucket"),
            ("110 l barrel", "in a 110 l barrel"),
            ("an open jug of 3 l", "in an open jug of 3 l"),
            ("The big pot", "in The big pot"),
            ("open jug", "in an open jug"),
            ("one-litre jug", "in a one-litre jug"),
            ("used enamel pot", "in a used enamel pot"),
            ("enamel pot", "in an enamel pot"),
            ("aquarium", "in an aquarium"),
        ] {
            assert_eq!(in_vessel(vessel), told);
        }
    }
}
