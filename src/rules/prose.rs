//! What prose refers to: facts, blocks, pages and pictures. Part of reading, but it needs the facts to be known.

use crate::facts::Facts;
use crate::finding::{Finding, Grade, slug};
use crate::notebook::{Kind, Notebook, PageHead, nearest};
use crate::source::Spanned;
use crate::syntax::{Link, LinkKind, Reference};

/// Checks every reference, link and picture of every page. `exists` tells whether a file is in the notebook.
pub fn check_prose(
    notebook: &Notebook,
    facts: &Facts,
    exists: &(dyn Fn(&str) -> bool + Sync),
) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (head, page) in notebook.pages.iter().zip(&notebook.texts) {
        for reference in &page.references {
            findings.extend(fact(notebook, facts, reference));
        }
        for one in &page.links {
            findings.extend(link(notebook, head, one, exists));
        }
    }
    findings
}

fn fact(notebook: &Notebook, facts: &Facts, reference: &Reference) -> Option<Finding> {
    let name = &reference.name;
    if facts.named(&name.value).is_some() {
        return None;
    }
    let (id, short) = name.value.split_once('.').unwrap_or((&name.value, ""));
    let Some(block) = notebook.block(id) else {
        let mut finding = Finding::fault(slug::FACT_UNKNOWN, name.span, format!("there is no block `{id}`"));
        finding = match nearest(id, notebook.ids()) {
            Some(near) => {
                let whole = if short.is_empty() {
                    near.to_owned()
                } else {
                    format!("{near}.{short}")
                };
                finding
                    .help(format!("did you mean `{whole}`?"))
                    .replace(name.span, whole)
            }
            None if notebook.lost_a_name(&Kind::ALL) => return None,
            None => finding.help(
                "write the id of a block, a point and the name of a fact, such as `{{ oat-drum.f-number }}`",
            ),
        };
        return Some(finding);
    };
    let of_block = facts.of_block(id);
    if of_block.is_empty() && block.broken {
        return None;
    }
    let message = if short.is_empty() {
        format!("`{id}` is a block: which of its facts is meant?")
    } else {
        format!("{} has no fact `{short}`", block.kind().with_article())
    };
    let mut finding = Finding::fault(slug::FACT_UNKNOWN, name.span, message);
    let known = of_block.iter().map(|fact| fact.name.as_str());
    finding = match nearest(short, known.clone()) {
        Some(near) => finding
            .help(format!("did you mean `{id}.{near}`?"))
            .replace(name.span, format!("{id}.{near}")),
        None if of_block.is_empty() => {
            finding.help(format!("nothing is computed for {}", block.kind().with_article()))
        }
        None => {
            let names: Vec<String> = known.map(|name| format!("`{name}`")).collect();
            finding.help(format!("known of `{id}` are {}", names.join(", ")))
        }
    };
    Some(finding)
}

fn link(
    notebook: &Notebook,
    head: &PageHead,
    link: &Link,
    exists: &(dyn Fn(&str) -> bool + Sync),
) -> Option<Finding> {
    let target = &link.target;
    let written = target.value.as_str();
    if written.is_empty() {
        return Some(broken(target, "this link leads nowhere").help("write where it leads"));
    }
    if is_elsewhere(written) {
        return (link.kind == LinkKind::Picture).then(|| {
            broken(
                target,
                "a picture from elsewhere is not shown: nothing leaves the notebook folder",
            )
            .help("save it beside the page")
        });
    }
    let (path, anchor) = written.split_once('#').unwrap_or((written, ""));
    if path.is_empty() {
        return anchor_finding(notebook, head, target, anchor);
    }
    let Some(full) = resolve(&head.path, path) else {
        return Some(
            Finding::fault(
                slug::LINK_OUTSIDE,
                target.span,
                format!("`{path}` leads out of the notebook folder"),
            )
            .help("put the file into the folder, or link to an address"),
        );
    };
    if exists(&full) {
        return None;
    }
    let rule = if link.kind == LinkKind::Picture {
        slug::PICTURE_MISSING
    } else {
        slug::LINK_BROKEN
    };
    let what = if link.kind == LinkKind::Picture {
        "picture"
    } else {
        "page or file"
    };
    let mut finding = Finding::new(
        rule,
        Grade::Fault,
        target.span,
        format!("there is no {what} `{path}`"),
    );
    let pages = notebook.pages.iter().map(|page| page.path.as_str());
    if let Some(near) = nearest(&full, pages).filter(|_| link.kind == LinkKind::Link) {
        finding = finding.help(format!("did you mean `{near}`?"));
    } else {
        finding = finding.help(format!("looked for `{full}` from the notebook folder"));
    }
    Some(finding)
}

fn broken(target: &Spanned<String>, message: impl Into<String>) -> Finding {
    Finding::fault(slug::LINK_BROKEN, target.span, message)
}

fn anchor_finding(
    notebook: &Notebook,
    head: &PageHead,
    target: &Spanned<String>,
    anchor: &str,
) -> Option<Finding> {
    let heading = notebook
        .texts
        .iter()
        .any(|page| page.file == head.file && page.anchors.iter().any(|known| known == anchor));
    if anchor.is_empty() || notebook.block(anchor).is_some() || heading {
        return None;
    }
    let mut finding = broken(target, format!("there is no block or heading `{anchor}`"));
    finding = match nearest(anchor, notebook.ids()) {
        Some(near) => finding
            .help(format!("did you mean `#{near}`?"))
            .replace(target.span, format!("#{near}")),
        None => finding.help("write `#` and the id of a block"),
    };
    Some(finding)
}

/// Whether a target is an address of its own.
fn is_elsewhere(target: &str) -> bool {
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
