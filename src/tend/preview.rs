//! Answers a browser on this machine, out of memory: nothing that is asked for ever becomes a path on disk, so nothing but
//! what was pressed can be had, whatever is asked.

use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use super::shown::Shown;
use super::stripe::{self, Line, OWN};
use crate::host::serve::{Answer, Answers, Asked, News, Whole};
use crate::host::stays_within;

const SCRIPT: &str = include_str!("../../templates/tend/tend.js");
const STYLE: &str = include_str!("../../templates/tend/tend.css");
/// What stands in place of the site's own files of these names: no copy is kept of a page that is being written.
const INSTEAD: [(&str, &str); 2] = [
    ("worker.js", include_str!("../../templates/tend/worker.js")),
    ("offline.js", include_str!("../../templates/tend/offline.js")),
];

/// What is shown now, and who waits for the next.
#[derive(Debug)]
pub struct Preview {
    port: u16,
    now: Mutex<Now>,
    changed: Condvar,
}

#[derive(Debug)]
struct Now {
    shown: Arc<Shown>,
    over: bool,
}

impl Preview {
    /// A preview at a port of 127.0.0.1. Requests that name another host are refused: a page from elsewhere could otherwise
    /// have its own name lead here and read along.
    pub fn new(port: u16, shown: Arc<Shown>) -> Self {
        Self {
            port,
            now: Mutex::new(Now { shown, over: false }),
            changed: Condvar::new(),
        }
    }

    /// Shows another state, and tells every open page.
    pub fn show(&self, shown: Arc<Shown>) {
        self.lock().shown = shown;
        self.changed.notify_all();
    }

    /// What is shown.
    pub fn shown(&self) -> Arc<Shown> {
        Arc::clone(&self.lock().shown)
    }

    /// Lets every open page go.
    pub fn end(&self) {
        self.lock().over = true;
        self.changed.notify_all();
    }

    fn lock(&self) -> MutexGuard<'_, Now> {
        self.now.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn is_here(&self, hosts: &[&str]) -> bool {
        let [host] = hosts else { return false };
        let Some((name, port)) = host.rsplit_once(':') else {
            return self.port == 80 && is_own_name(host);
        };
        is_own_name(name) && port == self.port.to_string()
    }

    fn file(&self, target: &str) -> Whole {
        let Some(Wanted {
            raw,
            path: wanted,
            as_saved,
        }) = Wanted::read(target)
        else {
            return plain(400, "That is no address of a page.");
        };
        let shown = self.shown();
        if let Some(page) = shown.page(&wanted, as_saved) {
            let kind = content_type(&wanted);
            return match std::str::from_utf8(page.bytes) {
                Ok(text) if kind == HTML => {
                    let saved = format!("{raw}?as=saved");
                    let line = Line {
                        mark: &shown.mark(&wanted, as_saved),
                        summary: shown.summary(),
                        stale: page.stale,
                        as_saved: shown.has_fresh(&wanted).then_some(saved.as_str()),
                        trouble: shown.trouble(),
                    };
                    html(200, text, &line)
                }
                _ => whole(200, kind, page.bytes.to_vec()),
            };
        }
        if shown.page(&format!("{wanted}/index.html"), false).is_some() {
            let mut moved = plain(302, "");
            moved.headers.push(("Location", format!("{raw}/")));
            return moved;
        }
        missing(&shown, &shown.mark(&wanted, as_saved))
    }
}

impl Answers for Preview {
    fn answer(&self, asked: &Asked<'_>) -> Answer {
        if !self.is_here(&asked.hosts) {
            return Answer::Whole(plain(
                403,
                "This preview answers to 127.0.0.1 and localhost alone.",
            ));
        }
        if !matches!(asked.method, "GET" | "HEAD") {
            let mut refused = plain(405, "This preview is for reading.");
            refused.headers.push(("Allow", "GET, HEAD".to_owned()));
            return Answer::Whole(refused);
        }
        let wanted = Wanted::read(asked.target).map(|wanted| wanted.path);
        let instead = |(name, _): &&(&str, &str)| wanted.as_deref() == Some(*name);
        if let Some((_, script)) = INSTEAD.iter().find(instead) {
            return Answer::Whole(whole(200, SCRIPT_TYPE, (*script).into()));
        }
        let Some(own) = asked.target.strip_prefix(OWN) else {
            return Answer::Whole(self.file(asked.target));
        };
        let (name, query) = own.split_once('?').unwrap_or((own, ""));
        match name {
            "tend.js" => Answer::Whole(whole(200, SCRIPT_TYPE, SCRIPT.into())),
            "tend.css" => Answer::Whole(whole(200, "text/css; charset=utf-8", STYLE.into())),
            "events" if asked.method == "GET" => {
                let value = |key: &str| query.split('&').find_map(|part| part.strip_prefix(key));
                Answer::News {
                    of: value("page=").and_then(decoded).unwrap_or_default(),
                    seen: value("seen=").unwrap_or_default().to_owned(),
                }
            }
            _ => Answer::Whole(plain(404, "There is no such page.")),
        }
    }

    fn news(&self, of: &str, seen: &str, wait: Duration) -> News {
        let wanted = Wanted::read(of);
        let mark = |shown: &Shown| {
            let wanted = wanted.as_ref();
            wanted.map_or_else(String::new, |wanted| shown.mark(&wanted.path, wanted.as_saved))
        };
        let waited = self
            .changed
            .wait_timeout_while(self.lock(), wait, |now| !now.over && mark(&now.shown) == seen);
        let (now, _) = waited.unwrap_or_else(PoisonError::into_inner);
        let mark = mark(&now.shown);
        if now.over {
            News::Over
        } else if mark == seen {
            News::None
        } else {
            News::Mark(mark)
        }
    }
}

/// What a browser asks for.
struct Wanted<'t> {
    /// The path as it was sent.
    raw: &'t str,
    /// A path from the site's root.
    path: String,
    /// Whether a stale page is wanted as the last save gives it.
    as_saved: bool,
}

impl<'t> Wanted<'t> {
    /// Reads a request's target; nothing where it is no path within the site.
    fn read(target: &'t str) -> Option<Self> {
        let (raw, query) = target.split_once('?').unwrap_or((target, ""));
        let mut path = raw.strip_prefix('/').and_then(decoded)?;
        if path.is_empty() || path.ends_with('/') {
            path.push_str("index.html");
        }
        stays_within(&path).then(|| Self {
            raw,
            path,
            as_saved: query.split('&').any(|part| part == "as=saved"),
        })
    }
}

fn is_own_name(name: &str) -> bool {
    name == "127.0.0.1" || name.eq_ignore_ascii_case("localhost")
}

const HTML: &str = "text/html; charset=utf-8";
const SCRIPT_TYPE: &str = "text/javascript; charset=utf-8";

fn content_type(path: &str) -> &'static str {
    let ending = path
        .rsplit_once('.')
        .map_or("", |(_, ending)| ending)
        .to_ascii_lowercase();
    match ending.as_str() {
        "html" => HTML,
        "css" => "text/css; charset=utf-8",
        "js" => SCRIPT_TYPE,
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "txt" => "text/plain; charset=utf-8",
        "csv" => "text/csv; charset=utf-8",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" | "jpeg" => "image/jpeg",
        "pdf" => "application/pdf",
        "ttf" => "font/ttf",
        "woff2" => "font/woff2",
        _ => "application/octet-stream",
    }
}

fn whole(status: u16, kind: &str, body: Vec<u8>) -> Whole {
    Whole {
        status,
        headers: vec![
            ("Content-Type", kind.to_owned()),
            ("Cache-Control", "no-store".to_owned()),
            ("X-Content-Type-Options", "nosniff".to_owned()),
            ("Cross-Origin-Resource-Policy", "same-origin".to_owned()),
        ],
        body,
    }
}

fn plain(status: u16, text: &str) -> Whole {
    whole(status, "text/plain; charset=utf-8", text.as_bytes().to_vec())
}

fn html(status: u16, page: &str, line: &Line<'_>) -> Whole {
    let (page, policy) = stripe::dressed(page, line);
    let mut whole = whole(status, HTML, page.into_bytes());
    whole
        .headers
        .extend(policy.map(|policy| ("Content-Security-Policy", policy)));
    whole
}

/// No page is here now. It waits for news like any other: the page may come back. It is dressed as the site is, in the view
/// that was chosen: a white page is no answer in a darkroom.
fn missing(shown: &Shown, mark: &str) -> Whole {
    let page = "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\
        <meta http-equiv=\"Content-Security-Policy\" \
        content=\"default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'\">\
        <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
        <meta name=\"color-scheme\" content=\"light dark\"><title>Not here</title>\
        <script src=\"/view.js\"></script><link rel=\"stylesheet\" href=\"/style.css\"></head>\n\
        <body><main><header class=\"opening\"><h1>Nothing stands at this address</h1></header>\n\
        <div class=\"prose\"><p>There is no such page in the site. It may have moved: \
        <a href=\"/\">to the first page</a>.</p></div></main>\n</body></html>\n";
    let line = Line {
        mark,
        summary: shown.summary(),
        stale: None,
        as_saved: None,
        trouble: shown.trouble(),
    };
    html(404, page, &line)
}

/// A path without its percent signs, where it is text.
fn decoded(raw: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(raw.len());
    let mut rest = raw.bytes();
    while let Some(byte) = rest.next() {
        bytes.push(match byte {
            b'%' => {
                let (high, low) = (digit(rest.next()?)?, digit(rest.next()?)?);
                high * 16 + low
            }
            other => other,
        });
    }
    String::from_utf8(bytes).ok()
}

fn digit(byte: u8) -> Option<u8> {
    char::from(byte).to_digit(16).map(|digit| digit as u8)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percent_signs() {
        assert_eq!(decoded("a%20b/%C3%BC").as_deref(), Some("a b/ü"));
        for broken in ["%", "%4", "%zz", "%ff", "%+1"] {
            assert_eq!(decoded(broken), None, "{broken}");
        }
    }

    #[test]
    fn only_this_machine_is_answered() {
        let preview = Preview::new(7240, Arc::default());
        assert!(preview.is_here(&["127.0.0.1:7240"]) && preview.is_here(&["LocalHost:7240"]));
        for hosts in [
            &[][..],
            &["evil.example"],
            &["evil.example:7240"],
            &["127.0.0.1"],
            &["127.0.0.1:80"],
            &["127.0.0.1:7240", "evil.example"],
            &["127.0.0.1.evil.example:7240"],
            &["localhost:07240"],
        ] {
            assert!(!preview.is_here(hosts), "{hosts:?}");
        }
    }
}
