//! Letters as they are compared: without case, without accents, compatible forms alike.
//!
//! `templates/site/search.js` folds a question in the same way; a test compares the two letter by letter.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// A text in the letters that are compared: compatibility decomposition (Unicode Standard Annex 15, form KD), marks
/// dropped, small letters, and the Latin letters that have no decomposition in plain ones.
pub fn fold(text: &str) -> String {
    if text.is_ascii() {
        return text.to_ascii_lowercase();
    }
    let bare: String = text.nfkd().filter(|c| !is_combining_mark(*c)).collect();
    let mut out = String::with_capacity(bare.len());
    for c in bare.to_lowercase().chars() {
        match plain(c) {
            Some(letters) => out.push_str(letters),
            // A small letter may come out with a mark of its own.
            None if is_combining_mark(c) => {}
            None => out.push(c),
        }
    }
    out
}

fn plain(c: char) -> Option<&'static str> {
    Some(match c {
        'ß' => "ss",
        'æ' => "ae",
        'œ' => "oe",
        'ø' => "o",
        'ð' | 'đ' => "d",
        'þ' => "th",
        'ł' => "l",
        'ħ' => "h",
        'ŧ' => "t",
        'ı' => "i",
        'ς' => "σ",
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::fold;

    #[test]
    fn case_and_accents_do_not_matter() {
        for (one, other) in [
            ("Thé", "the"),
            ("STRASSE", "Straße"),
            ("Ærø", "aero"),
            ("CO₂", "co2"),
            ("İSTANBUL ısı", "istanbul isi"),
            ("ΟΔΟΣ", "οδος"),
            ("ﬁxer", "fixer"),
            ("Łódź", "lodz"),
            ("e\u{301}tude", "étude"),
        ] {
            assert_eq!(fold(one), fold(other), "{one} {other}");
        }
    }
}
