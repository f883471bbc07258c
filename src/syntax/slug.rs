//! Names made from titles.

/// The slug of a title: lower case, letters and digits of any script, everything else a single hyphen.
///
/// Accents stay: `Thé noir` becomes `thé-noir`. The pH of a fact's name is not touched by this, only titles are.
pub fn slug(title: &str) -> String {
    let mut out = String::with_capacity(title.len());
    for c in title.chars() {
        if c.is_alphanumeric() {
            out.extend(c.to_lowercase());
        } else if !out.ends_with('-') && !out.is_empty() {
            out.push('-');
        }
    }
    out.truncate(out.trim_end_matches('-').len());
    out
}

#[cfg(test)]
mod tests {
    use super::slug;

    #[test]
    fn titles_become_slugs() {
        assert_eq!(slug("Rosemary and soda developer"), "rosemary-and-soda-developer");
        assert_eq!(slug("  Grade 3, RC!  "), "grade-3-rc");
        assert_eq!(slug("Thé noir"), "thé-noir");
        assert_eq!(slug("washing soda, anhydrous"), "washing-soda-anhydrous");
        assert_eq!(slug("—"), "");
    }

    proptest::proptest! {
        #[test]
        fn a_slug_is_its_own_slug(title in ".{0,40}") {
            let once = slug(&title);
            proptest::prop_assert_eq!(slug(&once), once);
        }
    }
}
