//! Text within XML and HTML that no template writes.

/// Text for an element or a quoted attribute. Characters that XML 1.0 does not know are left out.
pub fn xml(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\u{fffe}' | '\u{ffff}' => {}
            c if c < ' ' => {}
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::xml;

    #[test]
    fn text_stays_text() {
        assert_eq!(
            xml("<a b=\"c\">&\u{0}\u{b}\n'"),
            "&lt;a b=&quot;c&quot;&gt;&amp; '"
        );
    }
}
