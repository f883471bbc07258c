//! Quotes that are not closed as they should be: found, and taken out, so that the lines after them can be read.

/// Values that begin with a quote which is not closed as it should be, each to the end of its line.
pub(super) fn open_quotes(text: &str) -> Vec<std::ops::Range<usize>> {
    let mut found = Vec::new();
    let mut at = 0;
    let mut skip_to = 0;
    for line in text.split_inclusive('\n') {
        let end = at + line.trim_end().len();
        if at >= skip_to
            && let Some((start, quote)) = opening(line).map(|(offset, quote)| (at + offset, quote))
        {
            let indent = line.len() - line.trim_start().len();
            match closing(text, start, quote, indent) {
                Some(close) => skip_to = close,
                None => found.push(start..end),
            }
        }
        at += line.len();
    }
    found
}

/// The text with something unreadable, but harmless, in the place of each quote: an alias, which becomes a broken value.
pub(super) fn without(text: &str, quotes: &[std::ops::Range<usize>]) -> String {
    let mut out = text.to_owned();
    for quote in quotes {
        let length = quote.len();
        let stand_in = if length < 2 {
            "?".to_owned()
        } else {
            format!("{:<length$}", "*q")
        };
        if out.is_char_boundary(quote.start) && out.is_char_boundary(quote.end) {
            out.replace_range(quote.clone(), &stand_in);
        }
    }
    out
}

/// The quote that begins a line's value, and where it stands in the line.
fn opening(line: &str) -> Option<(usize, char)> {
    let value = match (line.find(": "), line.find("- ")) {
        (Some(colon), _) => colon + 2,
        (None, Some(dash)) if line.trim_start().starts_with("- ") => dash + 2,
        _ => return None,
    };
    let rest = line.get(value..)?;
    let offset = value + (rest.len() - rest.trim_start().len());
    let quote = line.get(offset..)?.chars().next()?;
    matches!(quote, '"' | '\'').then_some((offset, quote))
}

/// The end of a quote that ends well: on a line of its own value, with nothing after it.
fn closing(text: &str, start: usize, quote: char, indent: usize) -> Option<usize> {
    let inside = text.get(start + 1..)?;
    let mut escaped = false;
    let mut line_start = None;
    for (offset, c) in inside.char_indices() {
        if let Some(from) = line_start
            && c != ' '
            && c != '\n'
        {
            // Lines that go on within a quote are indented deeper than their key.
            if offset - from <= indent {
                return None;
            }
            line_start = None;
        }
        if c == '\n' {
            line_start = Some(offset + 1);
        }
        if escaped {
            escaped = false;
        } else if quote == '"' && c == '\\' {
            escaped = true;
        } else if c == quote {
            let rest = inside.get(offset + 1..).unwrap_or("");
            if quote == '\'' && rest.starts_with('\'') {
                escaped = true;
                continue;
            }
            let rest = rest.lines().next().unwrap_or("").trim_start();
            let ends = rest.is_empty() || rest.starts_with([',', ']', '}', '#', ':']);
            return ends.then_some(start + 1 + offset + 1);
        }
    }
    None
}
