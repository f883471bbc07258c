//! What templates can do to a value besides what the template engine brings.

use tera::{Kwargs, State, Tera, TeraResult, Value, escape_html};

use super::links;
use crate::views::paths::encode;

/// Adds our filters: `address` (a destination, empty where it is not safe), `path` (a file's path as an address), `ticks`
/// (text in which backticks set off what was written), `linked` (text whose bracketed words are links) and `counted` (a
/// number with its thing, as `one` and `many` have it).
pub(super) fn register(tera: &mut Tera) {
    tera.register_filter("address", |value: &str, _: Kwargs, _: &State<'_>| {
        links::link(value).unwrap_or_default()
    });
    tera.register_filter("path", |value: &str, _: Kwargs, _: &State<'_>| encode(value));
    tera.register_filter("ticks", |value: &str, _: Kwargs, _: &State<'_>| {
        Value::safe_string(&ticks(value))
    });
    tera.register_filter(
        "linked",
        |text: &str, to: Kwargs, _: &State<'_>| -> TeraResult<Value> {
            let places = ["first", "second"].map(|place| to.get::<&str>(place));
            let [first, second] = places;
            Ok(Value::safe_string(&linked(
                text,
                &[first?.unwrap_or_default(), second?.unwrap_or_default()],
            )))
        },
    );
    tera.register_filter(
        "counted",
        |count: usize, words: Kwargs, _: &State<'_>| -> TeraResult<String> {
            let form: &str = words.must_get(if count == 1 { "one" } else { "many" })?;
            Ok(form.replacen("{}", &count.to_string(), 1))
        },
    );
}

/// Text whose words in brackets are links, to one address after another.
pub(super) fn linked(text: &str, to: &[&str]) -> String {
    let mut out = Vec::with_capacity(text.len() + 64);
    let mut rest = text;
    for address in to {
        let Some((before, (words, after))) = rest
            .split_once('[')
            .and_then(|(before, behind)| Some((before, behind.split_once(']')?)))
        else {
            break;
        };
        escape(before, &mut out);
        out.extend_from_slice(b"<a href=\"");
        escape(address, &mut out);
        out.extend_from_slice(b"\">");
        escape(words, &mut out);
        out.extend_from_slice(b"</a>");
        rest = after;
    }
    escape(rest, &mut out);
    String::from_utf8_lossy(&out).into_owned()
}

fn ticks(text: &str) -> String {
    let mut out = Vec::with_capacity(text.len() + 16);
    let mut code = false;
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('`') {
        escape(before, &mut out);
        if code {
            out.extend_from_slice(b"</code>");
            code = false;
        } else if after.contains('`') {
            out.extend_from_slice(b"<code>");
            code = true;
        } else {
            out.push(b'`');
        }
        rest = after;
    }
    escape(rest, &mut out);
    String::from_utf8_lossy(&out).into_owned()
}

fn escape(text: &str, out: &mut Vec<u8>) {
    // Writing to memory does not fail.
    let _ = escape_html(text, out);
}

#[cfg(test)]
mod tests {
    use super::{linked, ticks};

    #[test]
    fn words_in_brackets_are_links() {
        assert_eq!(
            linked("The [list] & the [search].", &["a.html", "b.html?x=\"1\""]),
            "The <a href=\"a.html\">list</a> &amp; the <a href=\"b.html?x=&quot;1&quot;\">search</a>."
        );
        assert_eq!(linked("No [end", &["a.html"]), "No [end");
    }

    #[test]
    fn backticks_become_code() {
        assert_eq!(
            ticks("`a<b` and `c` and ` d"),
            "<code>a&lt;b</code> and <code>c</code> and ` d"
        );
        assert_eq!(ticks("``"), "<code></code>");
        assert_eq!(ticks("`<script>"), "`&lt;script&gt;");
    }
}
