//! The words of HTML that is ours: sanitised, well formed, every attribute quoted.

/// What is met while reading.
#[derive(Debug, PartialEq, Eq)]
pub(in crate::site) enum Met {
    /// Words.
    Text(String),
    /// What a picture shows, in words.
    Alt(String),
    /// The end of something that does not stand in a line: no word goes across.
    Gap,
    /// A heading begins, with its anchor.
    Heading(Option<String>),
    /// It ends.
    HeadingEnd,
}

/// Elements that a word may go across.
const IN_LINE: [&str; 22] = [
    "a", "abbr", "b", "bdi", "bdo", "cite", "code", "del", "dfn", "em", "i", "ins", "kbd", "mark", "q", "s",
    "small", "span", "strong", "sub", "sup", "u",
];

/// Reads `html` and tells of what is met, in order.
pub(in crate::site) fn read(html: &str, mut tell: impl FnMut(Met)) {
    let mut rest = html;
    while let Some((before, after)) = rest.split_once('<') {
        text(before, &mut tell);
        let (tag, after) = split_tag(after);
        rest = after;
        let name: &str = tag
            .split(|c: char| !c.is_ascii_alphanumeric() && c != '/')
            .next()
            .unwrap_or("");
        let closes = name.starts_with('/');
        let bare = name.trim_matches('/');
        if is_heading(bare) {
            tell(if closes {
                Met::HeadingEnd
            } else {
                Met::Heading(attribute(tag, "id"))
            });
        } else if bare == "img" {
            if let Some(alt) = attribute(tag, "alt") {
                tell(Met::Alt(format!(" {alt} ")));
            }
        } else if !IN_LINE.contains(&bare) {
            tell(Met::Gap);
        }
    }
    text(rest, &mut tell);
}

fn text(text: &str, tell: &mut impl FnMut(Met)) {
    if !text.is_empty() {
        tell(Met::Text(unescape(text)));
    }
}

/// A tag without its brackets, and what follows it. A `>` within quotes does not end it.
fn split_tag(after: &str) -> (&str, &str) {
    let mut quoted = false;
    for (at, byte) in after.bytes().enumerate() {
        match byte {
            b'"' => quoted = !quoted,
            b'>' if !quoted => {
                return (after.get(..at).unwrap_or(""), after.get(at + 1..).unwrap_or(""));
            }
            _ => {}
        }
    }
    (after, "")
}

fn is_heading(name: &str) -> bool {
    matches!(name, "h1" | "h2" | "h3" | "h4" | "h5" | "h6")
}

fn attribute(tag: &str, key: &str) -> Option<String> {
    let (_, after) = tag.split_once(&format!(" {key}=\""))?;
    let (value, _) = after.split_once('"')?;
    Some(unescape(value))
}

/// Text with its references to characters read. What is none of those that our writers make stays as it is.
fn unescape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('&') {
        out.push_str(before);
        let read = after
            .split_once(';')
            .and_then(|(name, after)| Some((named(name)?, after)));
        let (c, after) = read.unwrap_or(('&', after));
        out.push(c);
        rest = after;
    }
    out.push_str(rest);
    out
}

fn named(name: &str) -> Option<char> {
    Some(match name {
        "amp" => '&',
        "lt" => '<',
        "gt" => '>',
        "quot" => '"',
        "nbsp" => '\u{a0}',
        "#39" | "#x27" | "apos" => '\'',
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::{Met, read};

    fn met(html: &str) -> Vec<Met> {
        let mut all = Vec::new();
        read(html, |one| all.push(one));
        all
    }

    #[test]
    fn words_go_across_what_stands_in_a_line() {
        let mut text = String::new();
        read("<p>CO<sub>2</sub> &amp; air</p><p>soda</p>", |one| match one {
            Met::Text(part) => text.push_str(&part),
            _ => text.push('|'),
        });
        assert_eq!(text, "|CO2 & air||soda|");
    }

    #[test]
    fn headings_have_their_anchors() {
        assert_eq!(
            met("<h3 id=\"a&quot;b\" title=\"x > y\">A</h3>"),
            [
                Met::Heading(Some("a\"b".into())),
                Met::Text("A".into()),
                Met::HeadingEnd
            ]
        );
        assert_eq!(met("<h2>"), [Met::Heading(None)]);
    }

    #[test]
    fn pictures_are_found_by_their_words() {
        assert_eq!(
            met("<img src=\"a.png\" alt=\"an &lt;owl&gt;\" />"),
            [Met::Alt(" an <owl> ".into())]
        );
        assert_eq!(met("a & b &copy;"), [Met::Text("a & b &copy;".into())]);
    }
}
