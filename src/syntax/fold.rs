//! Letters as they are compared: without case, without accents, compatible forms alike.
//!
//! `templates/site/search.js` folds a question in the same way; a test compares the two letter by letter.

use unicode_normalization::char::{decompose_compatible, is_combining_mark};

/// A text in the letters that are compared: compatibility decomposition (Unicode Standard Annex 15, form KD), marks
/// dropped, small letters, and the Latin letters that have no decomposition in plain ones.
pub fn fold(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if c.is_ascii() {
            out.push(c.to_ascii_lowercase());
        } else {
            // The marks, which the form would put in order, are dropped: letter by letter comes to the same.
            decompose_compatible(c, |c| {
                if !is_combining_mark(c) {
                    c.to_lowercase().for_each(|c| push_plain(&mut out, c));
                }
            });
        }
    }
    out
}

fn push_plain(out: &mut String, c: char) {
    match plain(c) {
        Some(letters) => out.push_str(letters),
        // A small letter may come out with a mark of its own.
        None if is_combining_mark(c) => {}
        None => out.push(c),
    }
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
    use proptest::prelude::*;
    use unicode_normalization::UnicodeNormalization;

    use super::{fold, is_combining_mark, push_plain};

    proptest! {
        /// The definition, word for word: the whole text in form KD, and only then letter by letter.
        #[test]
        fn it_is_what_the_form_of_the_whole_text_gives(text in "\\PC{0,40}|[a-zA-ZÀ-ɏͰ-ϿẀ-ỿ가-힣ﬀ-ﬆ\u{300}-\u{36f} ]{0,40}") {
            let bare: String = text.nfkd().filter(|c| !is_combining_mark(*c)).collect();
            let mut whole = String::new();
            bare.to_lowercase().chars().for_each(|c| push_plain(&mut whole, c));
            prop_assert_eq!(fold(&text), whole);
        }
    }

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
