//! What a site has besides its pages: journal and feed, tags, lasting addresses, metadata, the page for lost addresses, the
//! map, and file names that every system takes.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::case_sensitive_file_extension_comparisons,
    reason = "a helper that fails fails the test that called it; paths are compared as they were written"
)]

use std::collections::{BTreeMap, BTreeSet};

use trayside::host::{Host, Memory};
use trayside::pipeline::{Proof, Silent, proof};
use trayside::site::{self, SiteFile, Templates};
use trayside::views::site_view;

use crate::site::reader::{check_page, resolve, values};

fn read(host: &dyn Host) -> Proof {
    proof(host, &Silent).unwrap()
}

fn render(proof: &Proof) -> Vec<SiteFile> {
    let view = site_view::site(
        &proof.notebook,
        &proof.facts,
        &proof.findings,
        &proof.sources,
        &[],
        "0.0.0",
    );
    site::render(&view, &Templates::new(&BTreeMap::new()).unwrap()).unwrap()
}

fn file<'f>(files: &'f [SiteFile], path: &str) -> Option<&'f str> {
    let file = files.iter().find(|file| file.path == path)?;
    Some(std::str::from_utf8(&file.bytes).unwrap())
}

fn text<'f>(files: &'f [SiteFile], path: &str) -> &'f str {
    file(files, path).unwrap_or_else(|| panic!("{path} is not written"))
}

const CAMERA: &str =
    "```camera\nid: crate\ntitle: Fish crate & lid\npinhole: 0.4 mm\ndistance: 100 mm\n```\n";

fn notebook(settings: &str) -> Memory {
    Memory::new()
        .with("trayside.yaml", format!("title: Weir <notebook>\nzone: Europe/Oslo\nby: Ilse & co\n{settings}"))
        .with("about.md", "# About\n\nNo date here.\n")
        .with(
            "log/first.md",
            format!("---\ndate: 2031-04-30\ntags: [river, First light]\n---\n\n# A \\<first> day & more\n\nGrey, *still*, \"cold\".\n\n{CAMERA}"),
        )
        .with(
            "log/second.md",
            "---\ntitle: Second day\ndate: 2031-05-02 11:30\ntags: [River]\n---\n\n## Morning\n\nSun ![a low sun](sun.png) at {{ crate.f-number }}.\n\nMore.\n",
        )
        .with("log/sun.png", "")
}

const BASE: &str = "press:\n  site:\n    base address: https://weir.example/notes\n";

#[test]
fn the_journal_and_the_feed_tell_the_newest_first() {
    let files = render(&read(&notebook(BASE)));
    let journal = text(&files, "journal.html");
    check_page("journal.html", journal);
    let places = ["Second day", "A &lt;first&gt; day"].map(|title| journal.find(title).unwrap());
    assert!(places[0] < places[1]);
    assert!(journal.contains("Grey, still, &quot;cold&quot;."), "{journal}");
    assert!(!journal.contains("No date here"));
    let feed = text(&files, "journal.xml");
    for part in [
        "<title>Weir &lt;notebook&gt;</title>",
        "<id>https://weir.example/notes/</id>",
        "<updated>2031-05-02T11:30:00+02:00</updated>",
        "<author><name>Ilse &amp; co</name></author>",
        "<link rel=\"self\" type=\"application/atom+xml\" href=\"https://weir.example/notes/journal.xml\"/>",
        "<id>https://weir.example/notes/log/second.html</id>",
        "<published>2031-04-30T00:00:00+02:00</published>",
        "<category term=\"First light\"/>",
        "<summary>Sun at f/250.</summary>",
        "<title>A &lt;first&gt; day &amp; more</title>",
    ] {
        assert!(feed.contains(part), "{part} is not in {feed}");
    }
    let places = ["second.html", "first.html"].map(|title| feed.find(title).unwrap());
    assert!(places[0] < places[1]);
    assert_eq!(feed.matches("<entry>").count(), 2);
    assert!(!feed.contains("about.html"));
    well_formed(feed);
}

/// Every element of an XML file is closed by its own name, and no `&` stands alone.
fn well_formed(xml: &str) {
    let mut open = Vec::new();
    for part in xml.split('<').skip(2) {
        let (tag, after) = part.split_once('>').unwrap();
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name));
        } else if !tag.ends_with('/') {
            open.push(tag.split(' ').next().unwrap());
        }
        for entity in after.split('&').skip(1).chain(tag.split('&').skip(1)) {
            let name = entity.split(';').next().unwrap();
            assert!(["amp", "lt", "gt", "quot"].contains(&name), "{name}");
        }
    }
    assert!(open.is_empty(), "{open:?}");
}

#[test]
fn without_an_address_there_is_nothing_that_needs_one() {
    let files = render(&read(&notebook("")));
    for path in ["journal.xml", "sitemap.xml"] {
        assert!(file(&files, path).is_none(), "{path}");
    }
    for (path, html) in html(&files) {
        assert!(
            !html.contains("canonical") && !html.contains("atom+xml"),
            "{path}"
        );
    }
}

fn html(files: &[SiteFile]) -> Vec<(&str, &str)> {
    let pages = files.iter().filter(|file| file.path.ends_with(".html"));
    pages
        .map(|file| (file.path.as_str(), std::str::from_utf8(&file.bytes).unwrap()))
        .collect()
}

#[test]
fn an_address_that_is_none_is_found() {
    for wrong in [
        "weir.example",
        "ftp://weir.example",
        "https://",
        "https://a b",
        "https://a/?q",
        "javascript:alert(1)",
    ] {
        let proof = read(&notebook(&format!(
            "press:\n  site:\n    base address: \"{wrong}\"\n"
        )));
        let found = proof
            .findings
            .iter()
            .any(|finding| finding.rule.as_str() == "value-shape");
        assert!(found, "{wrong}");
        assert!(file(&render(&proof), "sitemap.xml").is_none(), "{wrong}");
    }
}

#[test]
fn pages_say_what_they_are() {
    let files = render(&read(&notebook(BASE)));
    let page = text(&files, "log/second.html");
    for part in [
        "<meta name=\"author\" content=\"Ilse &amp; co\">",
        "<meta name=\"description\" content=\"Sun at f/250.\">",
        "<meta name=\"date\" content=\"2031-05-02T11:30:00+02:00\">",
        "<link rel=\"canonical\" href=\"https://weir.example/notes/log/second.html\">",
        "<link rel=\"alternate\" type=\"application/atom+xml\"",
        "<link rel=\"prev\" href=\"../log/first.html\">",
        "<time class=\"date\" datetime=\"2031-05-02T11:30:00+02:00\">2031-05-02 11:30</time>",
        "<a class=\"tag\" rel=\"tag\" href=\"../tags/river.html\">River</a>",
    ] {
        assert!(page.contains(part), "{part} is not in {page}");
    }
    // A day is that day wherever it is read.
    let day = "<time class=\"date\" datetime=\"2031-04-30\">2031-04-30</time>";
    assert!(text(&files, "log/first.html").contains(day));
}

#[test]
fn tags_list_their_pages() {
    let files = render(&read(&notebook("")));
    let list = text(&files, "tags.html");
    check_page("tags.html", list);
    assert!(
        list.contains(
            "<a class=\"title\" href=\"tags/river.html\">river</a> <span class=\"date\">2 pages</span>"
        ),
        "{list}"
    );
    let river = text(&files, "tags/river.html");
    check_page("tags/river.html", river);
    let places = ["../log/second.html", "../log/first.html"].map(|path| river.find(path).unwrap());
    assert!(places[0] < places[1]);
    assert!(file(&files, "tags/first-light.html").is_some());
    // A page may have the name of a tag: their windows are told apart.
    assert!(river.contains("<title>Tag: river –"), "{river}");
    assert!(river.contains("<h1>river</h1>"), "{river}");
}

#[test]
fn a_block_keeps_its_address_when_its_page_is_moved() {
    let host = notebook(BASE);
    let before = render(&read(&host));
    assert!(text(&before, "log/first.html").contains("href=\"../at/crate.html\""));
    let moved = String::from_utf8(host.read("log/first.md").unwrap()).unwrap();
    host.remove("log/first.md");
    host.put("old/years/one.md", moved);
    let after = render(&read(&host));
    for (files, to) in [
        (&before, "../log/first.html#crate"),
        (&after, "../old/years/one.html#crate"),
    ] {
        let page = text(files, "at/crate.html");
        check_page("at/crate.html", page);
        assert!(
            page.contains(&format!("<meta http-equiv=\"refresh\" content=\"0; url={to}\">")),
            "{page}"
        );
        assert_eq!(values(page, &["href"]).last().map(String::as_str), Some(to));
        let path = to.split('#').next().unwrap();
        let target = text(files, &resolve("at/crate.html", path).unwrap());
        assert!(values(target, &["id"]).contains(&"crate".to_owned()));
        assert!(page.contains("<title>Fish crate &amp; lid</title>"));
        // It is seen for a moment, and dressed in the view that was chosen before it is.
        for dress in ["../view.js", "../style.css"] {
            assert!(
                values(page, &["href", "src"]).contains(&dress.to_owned()),
                "{page}"
            );
            text(files, &resolve("at/crate.html", dress).unwrap());
        }
    }
}

#[test]
fn a_server_has_a_page_for_lost_addresses_and_a_map() {
    let files = render(&read(&notebook(BASE)));
    let lost = text(&files, "404.html");
    // It is shown at any depth: every file that it asks for has its whole address.
    for to in values(lost, &["href", "src", "action"]) {
        assert!(
            to.starts_with("https://weir.example/notes/") || to.starts_with('#'),
            "{to}"
        );
    }
    let map = text(&files, "sitemap.xml");
    well_formed(map);
    assert!(
        map.contains(
            "<url><loc>https://weir.example/notes/log/second.html</loc><lastmod>2031-05-02</lastmod></url>"
        ),
        "{map}"
    );
    assert_eq!(map.matches("<url>").count(), 3);
    check_page("404.html", text(&render(&read(&notebook(""))), "404.html"));
}

#[test]
fn every_system_takes_every_name() {
    let long = "very ".repeat(40);
    let names = [
        "con.md",
        "Aux.md",
        "what? now.md",
        "a<b>.md",
        "day.md",
        "Day.md",
        "DAY.md",
        "day-2.md",
        "end..md",
        "nul/x.md",
        "x./y.md",
        "caf\u{e9}.md",
        "cafe\u{301}.md",
        "at/crate.md",
        "tags/river.md",
        "search/m-all.md",
        "404.md",
        "journal.md",
        "pictures/a.md",
        "index.md",
        "b\\c.md",
    ];
    let mut host = Memory::new().with("trayside.yaml", "title: Weir\n");
    for name in names {
        host = host.with(name, format!("---\ndate: 2031-05-01\ntags: [con, CON, river]\n---\n\n# {}\n\n![](pic/A.png) ![](pic/a.png)\n\n", name.len()));
    }
    host.put(
        &format!("{long}.md"),
        format!("# Long\n\n{}", CAMERA.replace("id: crate", "id: aux")),
    );
    for picture in ["pic/A.png", "pic/a.png"] {
        for folder in ["", "nul/", "x./", "at/", "tags/", "search/", "pictures/"] {
            host.put(&format!("{folder}{picture}"), "x");
        }
    }
    let proof = read(&host);
    let view = site_view::site(
        &proof.notebook,
        &proof.facts,
        &proof.findings,
        &proof.sources,
        &[],
        "0.0.0",
    );
    let files = render(&proof);
    let mut paths: Vec<&str> = files.iter().map(|file| file.path.as_str()).collect();
    paths.extend(view.pictures.iter().map(|need| need.to.as_str()));
    assert_eq!(view.pages.len(), names.len() + 1);
    assert_eq!(view.pictures.len(), 14);
    let mut seen = BTreeSet::new();
    for path in &paths {
        assert!(
            seen.insert(path.to_lowercase().replace("e\u{301}", "\u{e9}")),
            "{path} is like another"
        );
        for part in path.split('/') {
            let stem = part.split('.').next().unwrap().trim_end().to_lowercase();
            assert!(!["con", "prn", "aux", "nul"].contains(&stem.as_str()), "{path}");
            assert!(
                !part.ends_with(['.', ' ']) && part.len() < 200 && !part.is_empty(),
                "{path}"
            );
            assert!(
                !part.contains(['<', '>', ':', '"', '|', '?', '*', '\\']),
                "{path}"
            );
        }
    }
    // A page and a folder do not share a name, and every link leads somewhere.
    let written: BTreeSet<String> = paths.iter().map(|path| (*path).to_owned()).collect();
    for (page, html) in html(&files) {
        for link in values(html, &["href", "src"]) {
            let path = link.split(['#', '?']).next().unwrap();
            if path.is_empty() || path.starts_with("facts.") || path.contains("../facts.") {
                continue;
            }
            let target = decoded(&resolve(page, path).unwrap());
            assert!(written.contains(&target), "{page}: {link}");
        }
    }
}

fn decoded(path: &str) -> String {
    let mut bytes = Vec::new();
    let mut rest = path.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let digits = [rest.next().unwrap(), rest.next().unwrap()];
            bytes.push(u8::from_str_radix(std::str::from_utf8(&digits).unwrap(), 16).unwrap());
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).unwrap()
}
