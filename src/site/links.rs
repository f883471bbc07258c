//! Where links and pictures may lead: other pages by relative path, the web by an ordinary address, and nowhere else.

/// Where a picture may come from.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Picture {
    /// A file of the site.
    Here(String),
    /// Another host: never loaded, only linked to.
    Elsewhere(String),
    /// An address that is not kept.
    Nowhere,
}

/// The destination of a link, or none where it could run something or leave the site by a back way.
///
/// Kept are `http`, `https`, `mailto` and relative paths. Addresses from the file system's root or of another host without
/// a scheme are not kept: opened from a folder they would lead somewhere on the reader's machine or network.
pub(super) fn link(dest: &str) -> Option<String> {
    match kind(dest) {
        Kind::Relative(path) => Some(path),
        Kind::Web(address) | Kind::Mail(address) => Some(address),
        Kind::Unsafe => None,
    }
}

/// The source of a picture.
pub(super) fn picture(dest: &str) -> Picture {
    match kind(dest) {
        Kind::Relative(path) => Picture::Here(path),
        Kind::Web(address) => Picture::Elsewhere(address),
        Kind::Mail(_) | Kind::Unsafe => Picture::Nowhere,
    }
}

enum Kind {
    Relative(String),
    Web(String),
    Mail(String),
    Unsafe,
}

fn kind(dest: &str) -> Kind {
    // Browsers drop these before they look for a scheme.
    let dest: String = dest
        .trim_matches(|c: char| c <= ' ')
        .chars()
        .filter(|c| !matches!(c, '\t' | '\n' | '\r'))
        .collect();
    if dest.chars().any(char::is_control) {
        return Kind::Unsafe;
    }
    match scheme(&dest) {
        Some("http" | "https") => Kind::Web(dest),
        Some("mailto") => Kind::Mail(dest),
        Some(_) => Kind::Unsafe,
        None if dest.starts_with(['/', '\\']) => Kind::Unsafe,
        None => Kind::Relative(dest),
    }
}

/// The scheme, in lower case where it is one of those that are kept.
fn scheme(dest: &str) -> Option<&str> {
    let end = dest.find([':', '/', '?', '#'])?;
    let (scheme, rest) = dest.split_at(end);
    if !rest.starts_with(':') {
        return None;
    }
    let known = ["http", "https", "mailto"];
    Some(
        known
            .into_iter()
            .find(|known| scheme.eq_ignore_ascii_case(known))
            .unwrap_or(scheme),
    )
}

#[cfg(test)]
mod tests {
    use super::{Picture, link, picture};

    #[test]
    fn keeps_ordinary_addresses() {
        for dest in [
            "http://example.org/a?b=c#d",
            "HTTPS://example.org",
            "mailto:a@example.org",
            "class/tuesday.html#tin",
            "../cards/tea.pdf",
            "#tin",
            "?q=a:b",
            "a/b:c",
            "",
        ] {
            assert_eq!(link(dest).as_deref(), Some(dest));
        }
    }

    #[test]
    fn drops_what_could_run_or_leave() {
        for dest in [
            "javascript:alert(1)",
            "JaVaScRiPt:alert(1)",
            " \u{1}javascript:alert(1)",
            "java\tscript:alert(1)",
            "java\nscript:alert(1)",
            "java\u{0}script:alert(1)",
            "data:text/html,x",
            "vbscript:x",
            "file:///etc/passwd",
            "//host/share",
            "\\\\host\\share",
            "/\\host",
            "/etc/passwd",
            "x:y",
            ":",
        ] {
            assert_eq!(link(dest), None, "{dest:?}");
            assert_eq!(picture(dest), Picture::Nowhere, "{dest:?}");
        }
    }

    #[test]
    fn pictures_of_other_hosts_are_not_loaded() {
        assert_eq!(picture("scans/a.png"), Picture::Here("scans/a.png".into()));
        assert_eq!(
            picture("http://h/a.png"),
            Picture::Elsewhere("http://h/a.png".into())
        );
        assert_eq!(picture("mailto:a@h"), Picture::Nowhere);
    }
}
