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
    fn addresses_are_elsewhere() {
        assert!(is_elsewhere("https://example.org/a:b"));
        assert!(is_elsewhere("//example.org"));
        assert!(is_elsewhere("javascript:alert(1)"));
        assert!(!is_elsewhere("a/b:c.md"));
        assert!(!is_elsewhere("papers.md#a"));
    }
}
