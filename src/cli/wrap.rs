//! Markdown for a terminal: paragraphs and list items broken at the width, headings set off, code left alone.

use std::fmt::Write as _;

/// How Markdown is shown.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Shown {
    /// Columns of a line.
    pub(crate) width: usize,
    /// Headings in bold and without their marks; else as they are written.
    pub(crate) bold: bool,
}

/// The text with its lines broken. Code blocks indented by four spaces keep theirs.
pub(crate) fn wrapped(markdown: &str, shown: Shown) -> String {
    let mut out = String::with_capacity(markdown.len() + markdown.len() / 40);
    for line in markdown.lines() {
        let heading = line.trim_start_matches('#');
        if shown.bold && heading.len() < line.len() && heading.starts_with(' ') {
            let _ = writeln!(out, "\x1b[1m{}\x1b[0m", heading.trim());
        } else if line.starts_with("    ") || line.chars().count() <= shown.width {
            out.push_str(line);
            out.push('\n');
        } else {
            let indent = if line.starts_with("- ") { "  " } else { "" };
            fill(line, indent, shown.width, &mut out);
        }
    }
    out
}

/// Breaks one line at spaces; what follows the first break is indented. A word longer than the width stands alone.
fn fill(line: &str, indent: &str, width: usize, out: &mut String) {
    let mut column = 0;
    for word in line.split(' ').filter(|word| !word.is_empty()) {
        let length = word.chars().count();
        if column > 0 && column + 1 + length > width {
            out.push('\n');
            out.push_str(indent);
            column = indent.len();
        } else if column > 0 {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += length;
    }
    out.push('\n');
}

#[cfg(test)]
mod tests {
    use super::{Shown, wrapped};

    const PLAIN: Shown = Shown {
        width: 20,
        bold: false,
    };

    #[test]
    fn prose_is_broken_and_code_is_not() {
        let text = "# a\n\none two three four five six\n\n- one two three four five\n\n    a line of code that is long\n";
        let shown = wrapped(text, PLAIN);
        assert_eq!(
            shown,
            "# a\n\none two three four\nfive six\n\n- one two three four\n  five\n\n    a line of code that is long\n"
        );
    }

    #[test]
    fn headings_are_bold_on_a_terminal() {
        let shown = wrapped(
            "## Why\n\n#notaheading\n",
            Shown {
                width: 20,
                bold: true,
            },
        );
        assert_eq!(shown, "\x1b[1mWhy\x1b[0m\n\n#notaheading\n");
    }

    proptest::proptest! {
        #[test]
        fn no_word_is_lost_and_no_line_too_long(text in "[a-zé ]{0,200}", width in 5_usize..40) {
            let shown = wrapped(&text, Shown { width, bold: false });
            if !text.starts_with("    ") {
                let words: Vec<&str> = text.split_whitespace().collect();
                proptest::prop_assert_eq!(shown.split_whitespace().collect::<Vec<_>>(), words);
                for line in shown.lines() {
                    proptest::prop_assert!(line.chars().count() <= width || !line.trim().contains(' '));
                }
            }
        }
    }
}
