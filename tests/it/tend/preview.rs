//! What the preview answers, and to whom. It listens on this machine alone.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, TcpStream};
use std::sync::Arc;
use std::time::Duration;

use trayside::finding::Summary;
use trayside::host::serve::{Listener, Server};
use trayside::host::{Host, Memory};
use trayside::pipeline::{File, Proof, Silent};
use trayside::tend::{Named, Preview, Session, Shown};

use super::{BROKEN, CAMERA, picture, small};

/// Long enough for the slowest machine; nothing waits that long.
const PATIENCE: Duration = Duration::from_mins(1);

/// The state of a folder after one round more.
fn next(session: &mut Session<'_>, before: &Shown) -> Arc<Shown> {
    let round = session.round(&Named::new(), &Silent).unwrap().unwrap();
    Arc::new(Shown::after(before, &round))
}

/// The state of a folder as it is shown while all but the page `saved` is still to be pressed, and the one after.
fn both(session: &mut Session<'_>, before: &Shown, saved: &str) -> (Shown, Shown) {
    let named = Named::from([saved.to_owned()]);
    let mut early = before.clone();
    let mut first = |proof: &Proof, pages: Vec<File>| early = before.with_first(proof, &pages);
    let round = session.round_with(&named, &Silent, &mut first).unwrap().unwrap();
    let late = Shown::after(&early, &round);
    (early, late)
}

fn served(shown: Arc<Shown>) -> (u16, Arc<Preview>, Server) {
    let listener = Listener::at(0).unwrap();
    let port = listener.port();
    let preview = Arc::new(Preview::new(port, shown));
    let server = listener.serve(Arc::clone(&preview) as _, |_| {}).unwrap();
    (port, preview, server)
}

fn connected(port: u16, request: &str) -> TcpStream {
    let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
    stream.set_read_timeout(Some(PATIENCE)).unwrap();
    stream.write_all(request.as_bytes()).unwrap();
    stream
}

/// The status and everything after it.
fn asked(port: u16, request: &str) -> (u16, String) {
    let mut bytes = Vec::new();
    connected(port, request).read_to_end(&mut bytes).unwrap();
    let text = String::from_utf8_lossy(&bytes).into_owned();
    let status = text.split(' ').nth(1).and_then(|status| status.parse().ok());
    (status.unwrap_or_else(|| panic!("{text}")), text)
}

fn got(port: u16, target: &str) -> (u16, String) {
    asked(
        port,
        &format!("GET {target} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n\r\n"),
    )
}

#[test]
fn pages_are_served_with_a_line_that_is_not_in_the_file() {
    let host = small();
    let shown = next(&mut Session::new(&host), &Shown::default());
    let (port, _preview, _server) = served(shown);
    let (status, page) = got(port, "/");
    assert_eq!(status, 200);
    for part in [
        "Content-Type: text/html; charset=utf-8\r\n",
        "Cache-Control: no-store\r\n",
        "X-Content-Type-Options: nosniff\r\n",
        "Content-Security-Policy: default-src 'none'; script-src 'self'; style-src 'self'; ",
        "src=\"/.tend/tend.js\"",
        "nothing found",
    ] {
        assert!(page.contains(part), "no {part} in {page}");
    }
    assert!(!page.contains("http-equiv=\"Content-Security-Policy\""));
    let file = String::from_utf8(host.read("pressed/site/index.html").unwrap()).unwrap();
    assert!(file.contains("http-equiv=\"Content-Security-Policy\"") && !file.contains(".tend"));
    for (target, kind) in [
        ("/style.css", "text/css; charset=utf-8"),
        ("/facts.json", "application/json"),
        ("/fonts/Vollkorn-Bold-latin.woff2", "font/woff2"),
        ("/log/one.html?a#b", "text/html; charset=utf-8"),
        ("/%6Cog/one.html", "text/html; charset=utf-8"),
        ("/.tend/tend.js", "text/javascript; charset=utf-8"),
        ("/.tend/tend.css", "text/css; charset=utf-8"),
    ] {
        let (status, answer) = got(port, target);
        assert_eq!(status, 200, "{target}");
        assert!(
            answer.contains(&format!("Content-Type: {kind}\r\n")),
            "{target}: {answer}"
        );
    }
    let (status, answer) = asked(
        port,
        &format!("HEAD /style.css HTTP/1.1\r\nHost: localhost:{port}\r\nConnection: close\r\n\r\n"),
    );
    assert!(status == 200 && answer.ends_with("\r\n\r\n"), "{answer}");
}

#[test]
fn other_hosts_and_other_methods_are_refused() {
    let (port, _preview, _server) = served(next(&mut Session::new(&small()), &Shown::default()));
    for hosts in [
        "Host: evil.example\r\n".to_owned(),
        format!("Host: evil.example:{port}\r\n"),
        format!("Host: 127.0.0.1.evil.example:{port}\r\n"),
        "Host: 127.0.0.1\r\n".to_owned(),
        String::new(),
        format!("Host: 127.0.0.1:{port}\r\nHost: evil.example\r\n"),
    ] {
        for target in ["/", "/.tend/events", "/.tend/tend.js"] {
            let request = format!("GET {target} HTTP/1.1\r\n{hosts}Connection: close\r\n\r\n");
            let (status, answer) = asked(port, &request);
            assert_eq!(status, 403, "{hosts}{target}");
            assert!(!answer.contains("Home"));
        }
    }
    for method in ["POST", "PUT", "DELETE", "OPTIONS", "TRACE"] {
        let request = format!(
            "{method} / HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nContent-Length: 3\r\nConnection: close\r\n\r\nabc"
        );
        assert_eq!(asked(port, &request).0, 405, "{method}");
    }
}

#[test]
fn no_path_leads_out_of_the_site() {
    let host = small()
        .with("log/private.md", "---\naudience: private\n---\nA secret.\n")
        .with("secret.txt", "A secret.");
    let (port, _preview, _server) = served(next(&mut Session::new(&host), &Shown::default()));
    for target in [
        "/../facts.json",
        "/../../secret.txt",
        "/%2e%2e/%2e%2e/secret.txt",
        "/log/..%2f..%2f..%2fsecret.txt",
        "/..%5c..%5csecret.txt",
        "//secret.txt",
        "/./secret.txt",
        "/%2Fetc/passwd",
        "/C:/secret.txt",
        "/secret.txt",
        "/secret.txt%00.html",
        "/trayside.yaml",
        "/log/one.md",
        "/log/private.html",
        "/pressed/site/index.html",
        "/site/index.html",
        "/%ff",
        "/%",
        "http://evil.example/",
        "*",
        "/.tend/../index.html",
        "/.tend/else",
    ] {
        let (status, answer) = got(port, target);
        assert!(matches!(status, 400 | 404), "{target}: {status}");
        assert!(
            !answer.contains("secret.\r") && !answer.contains("A secret"),
            "{target}"
        );
    }
    let (status, answer) = got(port, "/log");
    assert_eq!(status, 404, "{answer}");
}

#[test]
fn a_folder_without_its_stroke_leads_to_its_first_page() {
    let host = small().with("log/index.md", "# The log\n");
    let (port, _preview, _server) = served(next(&mut Session::new(&host), &Shown::default()));
    let (status, answer) = got(port, "/log");
    assert!(
        status == 302 && answer.contains("Location: /log/\r\n"),
        "{answer}"
    );
    assert!(got(port, "/log/").1.contains("The log"));
}

#[test]
fn an_open_page_hears_of_every_state_and_of_the_end() {
    let host = small();
    let mut session = Session::new(&host);
    let first = next(&mut session, &Shown::default());
    let (port, preview, _server) = served(Arc::clone(&first));
    let page = "log/one.html";
    let stream = connected(
        port,
        &format!(
            "GET /.tend/events?seen={}&page=%2Flog%2Fone.html HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\n\r\n",
            first.mark(page, false)
        ),
    );
    let mut lines = BufReader::new(stream).lines().map(Result::unwrap);
    // Whoever comes with an older state hears at once.
    let late = connected(
        port,
        &format!(
            "GET /.tend/events?page=/log/one.html&seen=older HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\n\r\n"
        ),
    );
    let mut late = BufReader::new(late).lines().map(Result::unwrap);
    let told = format!("data: {}", first.mark(page, false));
    assert!(late.any(|line| line == told));
    assert!(lines.any(|line| line == "retry: 1000"));

    host.put("log/one.md", "# One\n\nSnow.\n");
    let second = next(&mut session, &first);
    assert_ne!(first.mark(page, false), second.mark(page, false));
    preview.show(Arc::clone(&second));
    let told = format!("data: {}", second.mark(page, false));
    assert!(lines.any(|line| line == told) && late.any(|line| line == told));
    assert!(got(port, "/log/one.html").1.contains("Snow."));
    preview.end();
    assert_eq!(
        lines.chain(late).filter(|line| line.starts_with("data")).count(),
        0
    );
}

#[test]
fn a_page_that_a_save_leaves_as_it_was_is_left_alone() {
    let host = small();
    let mut session = Session::new(&host);
    let first = next(&mut session, &Shown::default());
    let pages = [
        "cameras.html",
        "index.html",
        "log/one.html",
        "search.html",
        "gone.html",
    ];
    let marked = |shown: &Shown| pages.map(|page| shown.mark(page, false));
    let changed = |before: &Shown, after: &Shown| {
        let (before, after) = (marked(before), marked(after));
        let changed = (0..pages.len()).filter(|at| before[*at] != after[*at]);
        changed.map(|at| pages[at]).collect::<Vec<_>>()
    };

    // The search looks into the words of every page.
    host.put("log/one.md", "# One\n\nSnow.\n");
    let prose = next(&mut session, &first);
    assert_eq!(changed(&first, &prose), ["log/one.html", "search.html"]);
    // The page as it was first shown is as it is when all else is pressed: it is shown anew once.
    host.put("log/one.md", "# One\n\nMore snow.\n");
    let (early, late) = both(&mut session, &prose, "log/one.md");
    assert_eq!(changed(&prose, &early), ["log/one.html"]);
    assert_eq!(changed(&early, &late), ["search.html"]);
    // A picture changes the pages that show it.
    host.put("log/sheet.png", picture(1));
    host.put("log/one.md", "# One\n\nMore snow.\n\n![a sheet](sheet.png)\n");
    let pictured = next(&mut session, &late);
    host.put("log/sheet.png", picture(200));
    let other = next(&mut session, &pictured);
    assert_eq!(changed(&pictured, &other), ["log/one.html"]);
    let late = other;
    // A style changes all of them, also one that only says that it is not there.
    host.put("templates/site/style.css", "body { color: black }\n");
    let styled = next(&mut session, &late);
    assert_eq!(changed(&late, &styled), pages);
    // A finding is counted at the foot of every page.
    host.put("cameras.md", BROKEN);
    let broken = next(&mut session, &styled);
    assert_eq!(changed(&styled, &broken), pages);
    // What mends it is counted as soon as the page is shown.
    host.put("cameras.md", CAMERA);
    let (early, late) = both(&mut session, &broken, "cameras.md");
    assert_eq!(
        early.mark("cameras.html", false),
        late.mark("cameras.html", false)
    );
}

#[test]
fn a_broken_save_leaves_the_last_good_page_with_a_stripe() {
    let host = small();
    let mut session = Session::new(&host);
    let first = next(&mut session, &Shown::default());
    let (port, preview, _server) = served(Arc::clone(&first));

    host.put("cameras.md", BROKEN);
    let broken = next(&mut session, &first);
    assert_eq!(
        broken.stale_pages().map(|(page, _)| page).collect::<Vec<_>>(),
        ["cameras.html"]
    );
    preview.show(Arc::clone(&broken));
    let (status, page) = got(port, "/cameras.html");
    assert_eq!(status, 200);
    assert!(
        page.contains("class=\"tend-stale\"") && page.contains("cameras.md:5:"),
        "{page}"
    );
    assert!(
        page.contains("The tin works at") && !page.contains("half written"),
        "{page}"
    );
    let (_, page) = got(port, "/cameras.html?as=saved");
    assert!(
        page.contains("half written") && page.contains("class=\"tend-fresh\""),
        "{page}"
    );
    // Other pages are fresh and say that there is a fault.
    let (_, page) = got(port, "/log/one.html");
    assert!(
        page.contains("class=\"tend-fresh\"") && page.contains("1 fault"),
        "{page}"
    );
    // On disk stands what `press` puts there.
    let file = String::from_utf8(host.read("pressed/site/cameras.html").unwrap()).unwrap();
    assert!(file.contains("half written") && !file.contains("tend-"));

    // Broken in another way: not even text.
    host.put("cameras.md", &b"# Cameras \xff\n"[..]);
    let worse = next(&mut session, &broken);
    // The first page links to what is now missing, and is stale with it.
    let stale: Vec<_> = worse.stale_pages().map(|(page, _)| page).collect();
    assert_eq!(stale, ["cameras.html", "index.html"]);
    assert!(
        String::from_utf8_lossy(worse.page("cameras.html", false).unwrap().bytes)
            .contains("The tin works at")
    );

    host.put("cameras.md", CAMERA);
    let mended = next(&mut session, &worse);
    assert_eq!(mended.stale_pages().count(), 0);
    for page in ["cameras.html", "index.html", "log/one.html"] {
        assert_eq!(mended.mark(page, false), first.mark(page, false), "{page}");
    }
    assert_eq!(mended.summary(), Summary::default());

    assert!(host.remove("cameras.md"));
    let gone = next(&mut session, &mended);
    assert!(gone.page("cameras.html", false).is_none());
}

/// A line whose clock somebody may be standing at.
fn line(time: &str) -> String {
    format!(
        "# The line\n\n```process\nid: tin-line\ntitle: The line\nsteps:\n  - rinse: tap water\n    time: {time}\n    \
         light: red\n  - dry: string\n    time: 1 h\n    light: room\n```\n"
    )
}

#[test]
fn a_broken_save_leaves_the_clock_of_its_line_as_it_was() {
    let host = small().with("line.md", line("20 s"));
    let mut session = Session::new(&host);
    let first = next(&mut session, &Shown::default());
    let clock = "clock/tin-line.html";
    let good = first.page(clock, false).unwrap().bytes.to_vec();

    host.put("line.md", line("20 sx"));
    let broken = next(&mut session, &first);
    host.put("line.md", line("20 sxx"));
    let again = next(&mut session, &broken);
    for shown in [&broken, &again] {
        let page = shown.page(clock, false).unwrap();
        assert_eq!(page.bytes, good);
        assert!(page.stale.unwrap().starts_with("line.md:8:"), "{:?}", page.stale);
    }
    // On disk no clock with a wrong time is left.
    assert!(host.read("pressed/site/clock/tin-line.html").is_err());

    host.put("line.md", line("30 s"));
    let mended = next(&mut session, &again);
    let page = mended.page(clock, false).unwrap();
    assert!(page.stale.is_none() && page.bytes != good);
    assert!(host.remove("line.md"));
    assert!(next(&mut session, &mended).page(clock, false).is_none());
}

#[test]
fn an_address_without_a_page_is_answered_in_the_view_that_was_chosen() {
    let host = small();
    let (port, _preview, _server) = served(next(&mut Session::new(&host), &Shown::default()));
    let (status, page) = got(port, "/log/three.html");
    assert_eq!(status, 404);
    for needed in ["/view.js", "/style.css"] {
        assert!(page.contains(&format!("\"{needed}\"")), "{page}");
        assert_eq!(got(port, needed).0, 200);
    }
    assert!(
        page.contains("name=\"color-scheme\"") && page.contains("id=\".tend\""),
        "{page}"
    );
}

#[test]
fn a_broken_template_leaves_the_whole_site_as_it_was() {
    let host: Memory = small();
    let mut session = Session::new(&host);
    let first = next(&mut session, &Shown::default());
    host.put("templates/site/page.html", "{% if %}");
    let broken = next(&mut session, &first);
    assert!(host.read("pressed/site/index.html").is_err());
    for page in ["index.html", "log/one.html", "findings.html"] {
        let shown = broken.page(page, false).unwrap();
        assert_eq!(shown.bytes, first.page(page, false).unwrap().bytes);
        assert!(shown.stale.unwrap().contains("template"));
    }
    assert!(broken.page("style.css", false).unwrap().stale.is_none());
    // A second save does not mend it, and does not lose it either.
    host.put("log/one.md", "# One\n\nSnow.\n");
    let still = next(&mut session, &broken);
    assert_eq!(
        still.page("log/one.html", false).unwrap().bytes,
        first.page("log/one.html", false).unwrap().bytes
    );
    host.remove("templates/site/page.html");
    let mended = next(&mut session, &still);
    assert_eq!(mended.stale_pages().count(), 0);
    let page = mended.page("log/one.html", false).unwrap();
    assert!(String::from_utf8_lossy(page.bytes).contains("Snow."));
}

#[test]
fn what_could_not_be_written_is_said_on_every_page() {
    let shown = next(&mut Session::new(&small()), &Shown::default());
    let troubled = Arc::new(shown.troubled("could not write pressed: no space <left>"));
    assert_ne!(
        shown.mark("index.html", false),
        troubled.mark("index.html", false)
    );
    let (port, _preview, _server) = served(troubled);
    let (_, page) = got(port, "/");
    assert!(
        page.contains("Not pressed: could not write pressed: no space &lt;left&gt;."),
        "{page}"
    );
}

#[test]
fn a_taken_port_is_left_to_whoever_has_it() {
    let first = Listener::at(0).unwrap();
    assert!(Listener::at(first.port()).is_err());
    let second = Listener::near(first.port()).unwrap();
    assert_ne!(first.port(), second.port());
}

#[test]
fn a_reader_who_stands_still_holds_up_nobody() {
    let (port, _preview, _server) = served(next(&mut Session::new(&small()), &Shown::default()));
    let _silent: Vec<TcpStream> = (0..30).map(|_| connected(port, "GET / HT")).collect();
    let _slow: Vec<TcpStream> = (0..30)
        .map(|_| {
            let body = "POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 5000\r\n\r\n";
            connected(port, body)
        })
        .collect();
    assert_eq!(got(port, "/").0, 200);
}
