//! Reads the pages that were written, and fails where they are not what they should be.

use std::collections::BTreeSet;
use std::path::Path;

/// An opening tag with its attributes, or the name of a closing one.
enum Token {
    Open(String, Vec<(String, String)>),
    Close(String),
}

/// Reads our own output: every `<` opens a tag, every attribute is quoted or bare.
fn tokens(html: &str) -> Vec<Token> {
    let mut tokens = Vec::new();
    let mut rest = html
        .strip_prefix("<!doctype html>")
        .expect("a page begins with its doctype");
    while let Some(at) = rest.find('<') {
        rest = &rest[at + 1..];
        if let Some(after) = rest.strip_prefix('/') {
            let end = after.find('>').unwrap();
            tokens.push(Token::Close(after[..end].to_owned()));
            rest = &after[end + 1..];
            continue;
        }
        let end = rest.find(|c: char| !c.is_ascii_alphanumeric()).unwrap();
        let name = rest[..end].to_owned();
        assert!(
            !name.is_empty(),
            "a bare `<` before {:?}",
            &rest[..rest.len().min(40)]
        );
        rest = &rest[end..];
        let mut attributes = Vec::new();
        loop {
            rest = rest.trim_start_matches([' ', '\n', '/']);
            if let Some(after) = rest.strip_prefix('>') {
                rest = after;
                break;
            }
            let end = rest.find(['=', ' ', '>']).unwrap();
            let key = rest[..end].to_owned();
            rest = &rest[end..];
            if let Some(after) = rest.strip_prefix("=\"") {
                let end = after.find('"').unwrap();
                attributes.push((key, unescape(&after[..end])));
                rest = &after[end + 1..];
            } else {
                attributes.push((key, String::new()));
            }
        }
        tokens.push(Token::Open(name, attributes));
    }
    tokens
}

fn unescape(text: &str) -> String {
    let text = text
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&#39;", "'");
    text.replace("&#x27;", "'").replace("&amp;", "&")
}

/// The values of every attribute of one of these names.
pub(crate) fn values(html: &str, keys: &[&str]) -> Vec<String> {
    let attributes = tokens(html).into_iter().flat_map(|token| match token {
        Token::Open(_, attributes) => attributes,
        Token::Close(_) => Vec::new(),
    });
    attributes
        .filter(|(key, _)| keys.contains(&key.as_str()))
        .map(|(_, value)| value)
        .collect()
}

/// Fails where a page is not well formed, could run something or asks another host for something.
pub(crate) fn check_page(name: &str, html: &str) {
    const VOID: [&str; 8] = ["br", "col", "hr", "img", "input", "link", "meta", "wbr"];
    const NEVER: [&str; 6] = ["style", "iframe", "object", "embed", "base", "textarea"];
    // Data stands in an element that no browser runs.
    const DATA: &str = "<script type=\"application/json\"";
    let data = html.matches(DATA).count();
    assert_eq!(
        html.matches("<script").count() - data,
        html.matches(".js\"></script>").count() + html.matches(".js\" defer></script>").count(),
        "{name}: a script within the page"
    );
    let mut open: Vec<String> = Vec::new();
    let mut ids = BTreeSet::new();
    let mut levels = Vec::new();
    for token in tokens(html) {
        match token {
            Token::Open(element, attributes) => {
                assert!(!NEVER.contains(&element.as_str()), "{name}: <{element}>");
                // A form asks nothing but the search, or sifts what is there.
                if element == "form" {
                    let action = attributes.iter().find(|(key, _)| key == "action");
                    assert!(
                        action.is_some_and(|(_, action)| action == "#" || action.ends_with("search.html")),
                        "{name}: {attributes:?}"
                    );
                }
                // Drawings are lines with a title and words, plots have text and points as well, and neither more.
                let drawing = attributes
                    .iter()
                    .any(|(key, value)| key == "class" && ["drawing", "plot"].contains(&value.as_str()));
                let inside = open.iter().any(|outer| outer == "svg");
                assert!(
                    element != "svg" || drawing || inside,
                    "{name}: a <svg> of unknown making"
                );
                if inside {
                    let known =
                        ["title", "desc", "path", "g", "text", "circle", "svg"].contains(&element.as_str());
                    assert!(known, "{name}: <{element}> in a drawing");
                }
                // A script is a file of ours at the site's root.
                let data = ("type".to_owned(), "application/json".to_owned());
                if element == "script" && !attributes.contains(&data) {
                    let src = attributes.iter().find(|(key, _)| key == "src");
                    let path = src.map(|(_, path)| path.trim_start_matches("../"));
                    assert!(
                        path.is_some_and(|path| Path::new(path).extension() == Some("js".as_ref())
                            && !path.contains(['/', ':'])),
                        "{name}: {attributes:?}"
                    );
                }
                for (key, value) in attributes {
                    assert!(!key.starts_with("on") && key != "style", "{name}: {key}={value}");
                    let value = value.trim().to_lowercase();
                    if ["href", "src", "cite"].contains(&key.as_str()) {
                        let scheme = value.split(['/', '?', '#']).next().unwrap().split_once(':');
                        let scheme = scheme.map_or("", |(scheme, _)| scheme);
                        assert!(
                            ["", "http", "https", "mailto"].contains(&scheme),
                            "{name}: {key}={value}"
                        );
                        assert!(
                            !value.starts_with('/') && !value.starts_with('\\'),
                            "{name}: {key}={value}"
                        );
                        assert!(
                            key != "src" || scheme.is_empty(),
                            "{name}: a picture of another host {value}"
                        );
                    }
                    if key == "id" {
                        assert!(ids.insert(value.clone()), "{name}: {value} is an anchor twice");
                    }
                }
                if let Some(level) = element
                    .strip_prefix('h')
                    .and_then(|level| level.parse::<usize>().ok())
                {
                    levels.push(level);
                }
                // Phrasing content does not hold paragraphs, lists or tables.
                if ["p", "ul", "ol", "table", "section", "div"].contains(&element.as_str()) {
                    assert!(
                        open.last().is_none_or(|last| last != "p"),
                        "{name}: <{element}> in <p>"
                    );
                }
                if !VOID.contains(&element.as_str()) {
                    open.push(element);
                }
            }
            Token::Close(element) => assert_eq!(open.pop().as_deref(), Some(element.as_str()), "{name}"),
        }
    }
    assert!(open.is_empty(), "{name}: {open:?} left open");
    assert_eq!(levels.first(), Some(&1), "{name}");
    assert_eq!(levels.iter().filter(|&&level| level == 1).count(), 1, "{name}");
    assert!(
        levels.windows(2).all(|pair| pair[1] <= pair[0] + 1),
        "{name}: {levels:?}"
    );
    assert!(html.contains("default-src 'none'"), "{name}");
}

/// The path from the site's root that `link` on `page` means, or none where it leads out of the site.
pub(crate) fn resolve(page: &str, link: &str) -> Option<String> {
    if link.is_empty() {
        return Some(page.to_owned());
    }
    let mut steps: Vec<&str> = page.split('/').collect();
    steps.pop();
    for step in link.split('/') {
        if step == ".." {
            steps.pop()?;
        } else {
            steps.push(step);
        }
    }
    Some(steps.join("/").replace("%20", " ").replace("%26", "&"))
}
