//! HTML that an author wrote by hand, made harmless: elements of text and tables, no script, no style, no forms, no frames.

use std::borrow::Cow;
use std::sync::LazyLock;

use ammonia::Builder;

use super::links::{self, Picture};
use super::slots::STEM;

static RULES: LazyLock<Builder<'static>> = LazyLock::new(rules);

/// Reads `html` as the content of one page and writes back what is harmless of it, with every element closed.
pub(super) fn clean(html: &str) -> String {
    RULES.clean(html).to_string()
}

fn rules() -> Builder<'static> {
    let mut rules = Builder::empty();
    rules
        .add_tags([
            "a",
            "abbr",
            "b",
            "bdi",
            "bdo",
            "blockquote",
            "br",
            "caption",
            "cite",
            "code",
            "col",
            "colgroup",
            "dd",
            "del",
            "details",
            "dfn",
            "div",
            "dl",
            "dt",
            "em",
            "figcaption",
            "figure",
            "h1",
            "h2",
            "h3",
            "h4",
            "h5",
            "h6",
            "hr",
            "i",
            "img",
            "ins",
            "kbd",
            "li",
            "mark",
            "ol",
            "p",
            "pre",
            "q",
            "rp",
            "rt",
            "ruby",
            "s",
            "samp",
            "small",
            "span",
            "strong",
            "sub",
            "summary",
            "sup",
            "table",
            "tbody",
            "td",
            "tfoot",
            "th",
            "thead",
            "time",
            "tr",
            "u",
            "ul",
            "var",
            "wbr",
        ])
        .link_rel(None)
        .add_generic_attributes(["dir"])
        // What our own Markdown output carries.
        .add_tag_attributes("code", ["class"])
        .add_allowed_classes("td", ["left", "center", "right"])
        .add_allowed_classes("th", ["left", "center", "right"])
        .add_allowed_classes("div", ["wide", "footnote-definition"])
        .add_allowed_classes("span", ["task"])
        .add_allowed_classes("sup", ["footnote-reference", "footnote-definition-label"])
        .attribute_filter(attribute);
    for element in [
        "h1", "h2", "h3", "h4", "h5", "h6", "div", "span", "p", "li", "sup",
    ] {
        rules.add_tag_attributes(element, ["id"]);
    }
    rules
}

fn attribute<'v>(element: &str, name: &str, value: &'v str) -> Option<Cow<'v, str>> {
    if value.contains(STEM) {
        return None;
    }
    match (element, name) {
        ("img", "src") => match links::picture(value) {
            Picture::Here(path) => Some(Cow::Owned(path)),
            Picture::Elsewhere(_) | Picture::Nowhere => None,
        },
        (_, "href" | "src" | "cite") => links::link(value).map(Cow::Owned),
        ("code", "class") => value.starts_with("language-").then_some(Cow::Borrowed(value)),
        _ => Some(Cow::Borrowed(value)),
    }
}

#[cfg(test)]
mod tests {
    use super::clean;

    #[test]
    fn closes_what_was_left_open() {
        assert_eq!(clean("<p><b>x<div>y"), "<p><b>x</b></p><div><b>y</b></div>");
        assert_eq!(clean("</div></main>x"), "x");
    }

    #[test]
    fn drops_what_runs_or_calls_out() {
        for html in [
            "<script>alert(1)</script>",
            "<style>@import 'http://h'</style>",
            "<iframe src='http://h'></iframe>",
            "<svg onload=alert(1)></svg>",
            "<base href='http://h'>",
            "<meta http-equiv=refresh content='0;url=http://h'>",
            "<link rel=stylesheet href='http://h'>",
            "<form action='http://h'></form>",
            "<object data=x></object>",
        ] {
            assert_eq!(clean(html), "", "{html}");
        }
        assert_eq!(clean("<img src=x onerror=alert(1)>"), "<img src=\"x\">");
        assert_eq!(clean("<img src='http://h/x.png' alt=a>"), "<img alt=\"a\">");
        assert_eq!(clean("<a href='jav&#x0A;ascript:alert(1)'>a</a>"), "<a>a</a>");
        assert_eq!(
            clean("<p style='background:url(http://h)' class=slip>a</p>"),
            "<p>a</p>"
        );
    }

    #[test]
    fn no_mark_hides_in_an_attribute() {
        assert_eq!(
            clean("<abbr title='<div>trayside-slot-0-1.</div>'>a</abbr>"),
            "<abbr>a</abbr>"
        );
    }
}
