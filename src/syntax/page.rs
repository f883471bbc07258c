//! A Markdown page: its front matter, fences, links, pictures and `{{ references }}`, each with its place.

use std::collections::BTreeMap;
use std::ops::Range;

use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, MetadataBlockKind, Parser, Tag, TagEnd};

use crate::source::{FileId, OffsetMap, Span, Spanned};

use super::no_tag::is_no_tag;
use super::slug::slug;

/// What a page holds beside its prose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// The file it was read from.
    pub file: FileId,
    /// The front matter's YAML, where there is one.
    pub front: Option<Fence>,
    /// The text of the first top heading.
    pub heading: Option<Spanned<String>>,
    /// The anchors of its headings, as the site makes them.
    pub anchors: Vec<String>,
    /// Fences with an info string, in order.
    pub fences: Vec<Fence>,
    /// Links and pictures, in order.
    pub links: Vec<Link>,
    /// `{{ id.fact }}` in the prose, in order.
    pub references: Vec<Reference>,
}

/// A fenced code block, or the front matter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fence {
    /// The info string, trimmed; empty for front matter.
    pub info: Spanned<String>,
    /// The whole fence, from its first mark.
    pub span: Span,
    /// What stands in it.
    pub text: String,
    /// From the text to the file.
    pub map: OffsetMap,
    /// Whether its end was found. A fence that is never closed swallows the rest of its page.
    pub closed: bool,
}

/// What a link is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LinkKind {
    /// `[text](target)`.
    Link,
    /// `![text](target)`.
    Picture,
}

/// A link or picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link {
    /// Which of the two.
    pub kind: LinkKind,
    /// Where it leads, as written; the span is the target's where it stands in the text, else the whole link's.
    pub target: Spanned<String>,
}

/// `{{ id.fact }}` in the prose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reference {
    /// What stands between the braces, trimmed.
    pub name: Spanned<String>,
    /// The whole, with its braces.
    pub span: Span,
}

/// Reads a page.
pub fn read_page(file: FileId, text: &str) -> Page {
    let mut page = Page {
        file,
        front: None,
        heading: None,
        anchors: Vec::new(),
        fences: Vec::new(),
        links: Vec::new(),
        references: Vec::new(),
    };
    let refers = text.contains("{{");
    let mut fence: Option<Fence> = None;
    let mut in_code = false;
    let mut in_heading: Option<(String, Range<usize>)> = None;
    let mut prose = Prose::default();
    let mut taken = BTreeMap::new();
    for (event, range) in Parser::new_ext(text, super::markdown_options()).into_offset_iter() {
        match event {
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(info))) => {
                fence = Some(open_fence(file, text, &info, range));
            }
            Event::Start(Tag::CodeBlock(CodeBlockKind::Indented)) => in_code = true,
            Event::Start(Tag::MetadataBlock(MetadataBlockKind::YamlStyle)) => {
                fence = Some(Fence {
                    closed: true,
                    ..open_fence(file, text, "", range)
                });
            }
            Event::End(TagEnd::CodeBlock) if in_code => in_code = false,
            Event::End(TagEnd::CodeBlock) => page
                .fences
                .extend(fence.take().filter(|fence| !fence.info.is_empty())),
            Event::End(TagEnd::MetadataBlock(_)) => page.front = fence.take(),
            Event::Start(Tag::Heading { .. }) => {
                in_heading = Some((String::new(), range));
            }
            Event::End(TagEnd::Heading(level)) => {
                if let Some((title, range)) = in_heading.take() {
                    page.anchors.push(anchor(&title, &mut taken));
                    if level == HeadingLevel::H1 && page.heading.is_none() {
                        page.heading = Some(Spanned::new(title, Span::new(file, range.start, range.end)));
                    }
                }
            }
            Event::Start(Tag::Link { dest_url, .. }) => {
                page.links
                    .push(link(file, text, LinkKind::Link, &dest_url, range));
            }
            Event::Start(Tag::Image { dest_url, .. }) => {
                page.links
                    .push(link(file, text, LinkKind::Picture, &dest_url, range));
            }
            Event::Text(part) => {
                if let Some(fence) = &mut fence {
                    add_text(fence, text, &part, range);
                } else {
                    if let Some((title, _)) = &mut in_heading {
                        title.push_str(&part);
                    }
                    if refers && !in_code {
                        prose.add(range);
                    }
                    continue;
                }
            }
            Event::Code(part) => {
                if let Some((title, _)) = &mut in_heading {
                    title.push_str(&part);
                }
            }
            Event::InlineHtml(part) if is_no_tag(&part) => {
                if let Some((title, _)) = &mut in_heading {
                    title.push_str(&part);
                }
            }
            _ => {}
        }
        prose.flush(file, text, &mut page.references);
    }
    prose.flush(file, text, &mut page.references);
    if page.front.is_none() {
        page.front = open_front(file, text);
    }
    page
}

/// Front matter that begins as such and is never closed, up to the first blank line. To Markdown it is a rule and a
/// paragraph, but it may say that the page is private.
fn open_front(file: FileId, text: &str) -> Option<Fence> {
    let first = text.split_inclusive('\n').next()?;
    if first.trim_end() != "---" {
        return None;
    }
    let rest = text.get(first.len()..)?;
    let key = rest.lines().next()?.split_once(':')?.0;
    if key.is_empty() || !key.chars().all(|c| c.is_alphabetic() || c == ' ') {
        return None;
    }
    let length: usize = rest
        .split_inclusive('\n')
        .take_while(|line| !line.trim().is_empty())
        .map(str::len)
        .sum();
    Some(Fence {
        info: Spanned::new(String::new(), Span::new(file, 0, 0)),
        span: Span::new(file, 0, first.len() + length),
        text: rest.get(..length)?.to_owned(),
        map: OffsetMap::slice(file, first.len(), length),
        closed: false,
    })
}

/// The anchor of a heading: its slug, with a number where that is taken. `taken` holds each anchor given so far with the
/// next number to try after it.
fn anchor(title: &str, taken: &mut BTreeMap<String, usize>) -> String {
    let slug = slug(title);
    let plain = if slug.is_empty() {
        "section".to_owned()
    } else {
        slug
    };
    let mut number = taken.get(&plain).copied().unwrap_or(1);
    let mut free = plain.clone();
    while taken.contains_key(&free) {
        number += 1;
        free = format!("{plain}-{number}");
    }
    taken.insert(plain, number);
    taken.entry(free.clone()).or_insert(1);
    free
}

fn open_fence(file: FileId, text: &str, info: &str, range: Range<usize>) -> Fence {
    let whole = text.get(range.clone()).unwrap_or("");
    let first_line = whole.lines().next().unwrap_or("");
    let info = info.trim();
    let at = range.start + first_line.find(info).unwrap_or(0);
    let mark = whole.chars().next().unwrap_or('`');
    let length = whole.chars().take_while(|c| *c == mark).count();
    let last_line = if whole.contains('\n') {
        whole.trim_end().lines().next_back().unwrap_or("")
    } else {
        ""
    };
    let tail = last_line.trim_start_matches([' ', '\t', '>']).trim_end();
    let closed = tail.len() >= length && tail.chars().all(|c| c == mark);
    Fence {
        info: Spanned::new(info.to_owned(), Span::new(file, at, at + info.len())),
        span: Span::new(file, range.start, range.end),
        text: String::new(),
        map: OffsetMap::new(file, range.start + first_line.len()),
        closed,
    }
}

/// Adds one text event. Markdown hands over whole lines, or pieces of lines where a line end was normalised or a tab
/// split; what is the same at the start or at the end of both is mapped.
fn add_text(fence: &mut Fence, text: &str, part: &str, range: Range<usize>) {
    let source = text.get(range.clone()).unwrap_or("");
    let inner = fence.text.len();
    if source == part {
        fence.map.push(inner, range);
    } else if let Some(rest) = part.strip_suffix(source) {
        fence.map.push(inner, range.start..range.start);
        fence.map.push(inner + rest.len(), range);
    } else {
        fence.map.push(inner, range);
    }
    fence.text.push_str(part);
}

fn link(file: FileId, text: &str, kind: LinkKind, target: &str, range: Range<usize>) -> Link {
    let whole = text.get(range.clone()).unwrap_or("");
    let span = match whole.rfind(target) {
        Some(at) if !target.is_empty() => Span::new(file, range.start + at, range.start + at + target.len()),
        _ => Span::new(file, range.start, range.end),
    };
    Link {
        kind,
        target: Spanned::new(target.to_owned(), span),
    }
}

/// Joins neighbouring text events, so that a reference that Markdown cut in two is still one. A gap between two events
/// is an escape: `\\{{` is text, not a reference.
#[derive(Default)]
struct Prose {
    stretches: Vec<Range<usize>>,
}

impl Prose {
    fn add(&mut self, range: Range<usize>) {
        match self.stretches.last_mut() {
            Some(last) if last.end == range.start => last.end = range.end,
            _ => self.stretches.push(range),
        }
    }

    fn flush(&mut self, file: FileId, text: &str, out: &mut Vec<Reference>) {
        for range in self.stretches.drain(..) {
            find_references(file, text, range, out);
        }
    }
}

/// Every `{{ name }}` in a stretch of prose.
fn find_references(file: FileId, text: &str, range: Range<usize>, out: &mut Vec<Reference>) {
    let Some(stretch) = text.get(range.clone()) else {
        return;
    };
    // Markdown has taken an escaping backslash away, so that its brace begins the stretch.
    let escaped = text
        .get(..range.start)
        .is_some_and(|before| before.ends_with('\\'));
    let mut at = usize::from(escaped);
    while let Some(open) = stretch
        .get(at..)
        .and_then(|rest| rest.find("{{"))
        .map(|found| at + found)
    {
        let Some(close) = stretch
            .get(open + 2..)
            .and_then(|rest| rest.find("}}"))
            .map(|found| open + 2 + found)
        else {
            return;
        };
        let inner = stretch.get(open + 2..close).unwrap_or("");
        let start = range.start + open + 2 + (inner.len() - inner.trim_start().len());
        let name = inner.trim().to_owned();
        let name_span = Span::new(file, start, start + name.len());
        let span = Span::new(file, range.start + open, range.start + close + 2);
        out.push(Reference {
            name: Spanned::new(name, name_span),
            span,
        });
        at = close + 2;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Sources;
    use crate::syntax::{NodeKind, read_yaml};

    fn page(text: &str) -> (Sources, Page) {
        let mut sources = Sources::default();
        let file = sources.add("p.md", text);
        let page = read_page(file, sources.get(file).unwrap().text());
        (sources, page)
    }

    /// The keys and scalars of a page's only block, each cut out of the file by its span.
    fn words(text: &str) -> Vec<String> {
        let (sources, page) = page(text);
        let fence = &page.fences[0];
        let mut findings = Vec::new();
        let document = read_yaml(&fence.text, &fence.map, &mut findings);
        assert!(findings.is_empty(), "{findings:?}");
        let mut words = Vec::new();
        collect(&document.node, &sources, &mut words);
        words
    }

    fn collect(node: &crate::syntax::Node, sources: &Sources, out: &mut Vec<String>) {
        match &node.kind {
            NodeKind::Map(entries) => {
                for entry in entries {
                    out.push(sources.slice(entry.key.span).to_owned());
                    collect(&entry.value, sources, out);
                }
            }
            NodeKind::List(items) => items.iter().for_each(|item| collect(item, sources, out)),
            _ => out.push(sources.slice(node.span).to_owned()),
        }
    }

    const EXPECTED: [&str; 8] = [
        "title",
        "Nettle ½",
        "makes",
        "1 l",
        "add",
        "dried nettle",
        "30 g",
        "borax",
    ];

    fn check(text: &str) {
        let found = words(text);
        assert_eq!(found[..8], EXPECTED, "in {text:?}");
        assert_eq!(found[8], "2 g");
    }

    #[test]
    fn spans_are_exact_at_the_top_in_lists_and_in_quotes() {
        let block = [
            "```recipe",
            "title: Nettle ½",
            "makes: 1 l",
            "add:",
            "  dried nettle: 30 g",
            "  borax: \"2 g\"",
            "```",
            "",
        ];
        check(&block.join("\n"));
        check(&block.join("\r\n"));
        check(&format!("\u{feff}é\n\n{}", block.join("\n")));
        check(&format!(
            "- one\n\n{}",
            block.map(|line| format!("  {line}")).join("\n")
        ));
        check(&format!(
            "- one\n\n{}",
            block.map(|line| format!("\t{line}")).join("\n")
        ));
        check(&block.map(|line| format!("> {line}")).join("\n"));
        check(&block.map(|line| format!("> {line}")).join("\r\n"));
        check(&format!(
            "1. x\n\n   - y\n\n{}",
            block.map(|line| format!("     > {line}")).join("\n")
        ));
    }

    #[test]
    fn an_unclosed_fence_is_seen() {
        assert!(!page("```recipe\na: 1\n").1.fences[0].closed);
        assert!(!page("```recipe").1.fences[0].closed);
        assert!(page("> ```recipe\n> a: 1\n> ```\n").1.fences[0].closed);
        assert!(page("~~~~ recipe\na: 1\n~~~~\n").1.fences[0].closed);
    }

    #[test]
    fn references_are_found_in_prose_and_nowhere_else() {
        let (sources, page) =
            page("a {{ tea.pH }} and `{{ no.code }}` \\{{ no.escape }}, *{{b.c}}*\n\n    {{ no.d }}\n");
        let names: Vec<&str> = page
            .references
            .iter()
            .map(|reference| reference.name.value.as_str())
            .collect();
        assert_eq!(names, ["tea.pH", "b.c"]);
        assert_eq!(sources.slice(page.references[0].name.span), "tea.pH");
        assert_eq!(sources.slice(page.references[1].span), "{{b.c}}");
    }

    #[test]
    fn links_and_headings_are_found() {
        let (sources, page) =
            page("# The *shed*\n\n## A\n\n## A\n\n## A-2\n\n[tea](#tea) ![a scan](scans/a.png)\n");
        assert_eq!(page.anchors, ["the-shed", "a", "a-2", "a-2-2"]);
        assert_eq!(page.heading.as_ref().unwrap().value, "The shed");
        assert_eq!(sources.slice(page.links[0].target.span), "#tea");
        assert_eq!(page.links[1].kind, LinkKind::Picture);
    }
}
