//! Data as a part of a script: from a folder a page may load scripts, and nothing else.

/// JSON as a part of a script: the same value, without a `<` and the two line ends that JSON does not know.
pub(super) fn harmless(json: &str) -> String {
    json.replace('<', "\\u003c")
        .replace('\u{2028}', "\\u2028")
        .replace('\u{2029}', "\\u2029")
}

#[cfg(test)]
mod tests {
    use super::harmless;

    #[test]
    fn nothing_ends_the_script_or_its_line() {
        assert_eq!(
            harmless("\"a</script>\u{2028}\u{2029}\""),
            "\"a\\u003c/script>\\u2028\\u2029\""
        );
    }
}
