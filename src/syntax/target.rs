//! Where links lead: addresses of their own, and paths from a page's folder.

/// Whether a target is an address of its own.
pub fn is_elsewhere(target: &str) -> bool {
    let scheme = target.split(['/', '?', '#']).next().unwrap_or("");
    scheme.contains(':') || target.starts_with("//")
}

/// A path from a page's folder as a path from the notebook folder; none where it leads out.
pub fn resolve(page: &str, path: &str) -> Option<String> {
    let decoded = percent_decoded(path)?;
    if decoded.starts_with('/') || decoded.contains('\\') {
        return None;
    }
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for part in decoded.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop()?;
            }
            part => parts.push(part),
        }
    }
    Some(parts.join("/"))
}

/// How a path from the notebook folder is written in a link on a page: the other way round of [`resolve`].
pub fn written_on(page: &str, path: &str) -> String {
    let folders = |path: &'_ str| path.matches('/').count();
    let shared = page
        .split('/')
        .zip(path.split('/'))
        .take(folders(page).min(folders(path)))
        .take_while(|(here, there)| here == there)
        .count();
    let up = "../".repeat(folders(page) - shared);
    let down: Vec<&str> = path.split('/').skip(shared).collect();
    let mut written = up;
    for c in down.join("/").chars() {
        match c {
            // What ends a path in a link, or stands for another character.
            '%' => written.push_str("%25"),
            '#' => written.push_str("%23"),
            '?' => written.push_str("%3F"),
            ' ' => written.push_str("%20"),
            '(' => written.push_str("%28"),
            ')' => written.push_str("%29"),
            '<' => written.push_str("%3C"),
            '>' => written.push_str("%3E"),
            c => written.push(c),
        }
    }
    if is_elsewhere(&written) {
        written.insert_str(0, "./");
    }
    written
}

/// `%20` and the like as the characters they stand for.
fn percent_decoded(text: &str) -> Option<String> {
    if !text.contains('%') {
        return Some(text.to_owned());
    }
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let digits = [rest.next()?, rest.next()?];
            let digits = std::str::from_utf8(&digits).ok()?;
            bytes.push(u8::from_str_radix(digits, 16).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_resolved_from_the_page() {
        assert_eq!(
            resolve("log/may.md", "../papers.md").as_deref(),
            Some("papers.md")
        );
        assert_eq!(
            resolve("log/may.md", "scans/a%20b.png").as_deref(),
            Some("log/scans/a b.png")
        );
        assert_eq!(resolve("a.md", "./b.md").as_deref(), Some("b.md"));
        assert_eq!(resolve("a.md", "../secret"), None);
        assert_eq!(resolve("a.md", "/etc/passwd"), None);
        assert_eq!(resolve("a.md", "x%2e%2e/%2e%2e/%2e%2e/secret"), None);
    }

    #[test]
    fn a_path_is_written_as_it_is_resolved() {
        for (page, path, written) in [
            ("log/may.md", "papers.md", "../papers.md"),
            ("log/may.md", "log/scans/a b.png", "scans/a%20b.png"),
            ("log/2031/may.md", "log/hash#tag.md", "../hash%23tag.md"),
            ("a.md", "per%20cent.md", "per%2520cent.md"),
            ("a.md", "b:c/d.md", "./b:c/d.md"),
            ("a/b.md", "a/b.md", "b.md"),
            ("a/b.md", "a", "../a"),
        ] {
            assert_eq!(written_on(page, path), written);
            assert_eq!(resolve(page, written).as_deref(), Some(path));
        }
    }

    #[test]
    fn addresses_are_elsewhere() {
        assert!(is_elsewhere("https://example.org/a:b"));
        assert!(is_elsewhere("//example.org"));
        assert!(is_elsewhere("javascript:alert(1)"));
        assert!(!is_elsewhere("a/b:c.md"));
        assert!(!is_elsewhere("papers.md#a"));
    }
}
