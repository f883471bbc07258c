//! What templates can do to a value besides what the template engine brings.

use tera::{Kwargs, State, Tera, Value, escape_html};

use super::links;
use crate::views::paths::encode;

/// Adds our filters: `address` (a destination, empty where it is not safe), `path` (a file's path as an address) and `ticks`
/// (text in which backticks set off what was written).
pub(super) fn register(tera: &mut Tera) {
    tera.register_filter("address", |value: &str, _: Kwargs, _: &State<'_>| {
        links::link(value).unwrap_or_default()
    });
    tera.register_filter("path", |value: &str, _: Kwargs, _: &State<'_>| encode(value));
    tera.register_filter("ticks", |value: &str, _: Kwargs, _: &State<'_>| {
        Value::safe_string(&ticks(value))
    });
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
    use super::ticks;

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
