//! The site of an invented notebook: looks at every file that is written, and at what hostile text does to it.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a helper that fails fails the test that called it"
)]

pub(crate) mod reader;
mod sample;

use std::collections::{BTreeMap, BTreeSet};

use trayside::site::{self, SiteFile, Templates};

use reader::{check_page, resolve, values};
use sample::{page, pieces, sample};

#[test]
fn pages_are_well_formed_and_harmless() {
    for file in html_files(&rendered()) {
        check_page(&file.0, &file.1);
    }
}

#[test]
fn every_link_leads_somewhere() {
    let files = rendered();
    let mut written: BTreeSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
    // The pipeline writes these beside the pages.
    written.extend(["facts.json", "facts.csv"]);
    let pages = html_files(&files);
    let anchors: BTreeMap<&str, BTreeSet<String>> = pages
        .iter()
        .map(|(path, html)| (path.as_str(), values(html, &["id"]).into_iter().collect()))
        .collect();
    let mut followed = 0;
    for (page, html) in &pages {
        for link in values(html, &["href", "src"]) {
            if ["http:", "https:", "mailto:"]
                .iter()
                .any(|scheme| link.starts_with(scheme))
            {
                continue;
            }
            let (path, anchor) = link.split_once('#').unwrap_or((&link, ""));
            let Some(target) = resolve(page, path) else {
                // Cards stand beside the site, not in it.
                assert!(path.ends_with("cards/nettle-tea.pdf"), "{page}: {link}");
                continue;
            };
            assert!(
                written.contains(target.as_str()),
                "{page}: {link} leads to {target}, which is not written"
            );
            if !anchor.is_empty() {
                assert!(
                    anchors[target.as_str()].contains(anchor),
                    "{page}: {link} has no anchor"
                );
            }
            followed += 1;
        }
    }
    assert!(followed > 50, "{followed}");
}

#[test]
fn the_style_sheet_asks_only_for_files_that_are_written() {
    let files = rendered();
    let written: BTreeSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
    let style = text(&files, "style.css");
    let mut asked = 0;
    for after in style.split("url(").skip(1) {
        let address = after.split(')').next().unwrap().trim_matches('"');
        assert!(written.contains(address), "{address}");
        asked += 1;
    }
    assert_eq!(asked, 11);
    assert!(!style.contains("@import"));
}

#[test]
fn no_name_is_written_twice() {
    let files = rendered();
    let names: BTreeSet<String> = files.iter().map(|file| file.path.to_lowercase()).collect();
    assert_eq!(names.len(), files.len());
}

#[test]
fn the_same_site_gives_the_same_bytes() {
    assert_eq!(rendered(), rendered());
}

#[test]
fn facts_stand_in_prose_margin_and_list() {
    let files = rendered();
    let page = text(&files, "developers.html");
    assert!(page.contains("<span class=\"fact whole\">9.6–10.1</span><span class=\"slip\">"));
    assert!(page.contains("<span class=\"how\">equilibrium of carbonate and ascorbate at 22 °C</span>"));
    assert!(page.contains("aria-label=\"Computed for Nettle tea developer\""));
    let gap = text(&files, "class/quarry.html");
    assert!(gap.contains("<span class=\"fact whole gap\">—</span>"));
    assert!(gap.contains("the paper states no reciprocity"));
    let facts = text(&files, "facts.html");
    for id in ["nettle-tea.pH", "slate-tin.f-number", "quarry-3.time"] {
        assert!(facts.contains(&format!("<code>{id}</code>")), "{id}");
    }
}

#[test]
fn findings_stand_at_their_block_and_on_their_page() {
    let files = rendered();
    let page = text(&files, "developers.html");
    let block = page
        .split("id=\"nettle-tea\"")
        .nth(1)
        .unwrap()
        .split("</section>")
        .next()
        .unwrap();
    assert!(block.contains("<strong class=\"grade\">hazard</strong>"));
    assert!(block.contains("<code>stop bath</code>"));
    // Those of blocks are not repeated below the text.
    assert_eq!(page.matches("acid-into-carbonate").count(), 1);
    assert!(page.contains("findings.html#page-1\">1 hazard, 2 doubts</a>"));
    assert!(text(&files, "findings.html").contains("<h2 id=\"page-1\"><a href=\"developers.html\">"));
    assert!(
        text(&files, "findings.html").contains("href=\"developers.html#nettle-tea\">developers.md:31:3</a>")
    );
    // What belongs to no page is not lost.
    assert!(text(&files, "findings.html").contains("The notebook as a whole"));
}

#[test]
fn blocks_survive_what_an_author_breaks() {
    let opened = [
        "<script>",
        "<!--",
        "<div title=\"",
        "<textarea>",
        "<style>",
        "<table><tr>",
        "<b><i><a href='x'>",
        "<svg><title>",
        "<plaintext>",
        "<select>",
        "</div></section></main>",
        "<p",
    ];
    for open in opened {
        let mut site = sample();
        site.pages.truncate(1);
        // In two goes: some of these keep a Markdown reader from seeing the fence.
        site.pages[0].body = pieces(&format!("{open}\n"));
        site.pages[0].body.extend(pieces(
            "```block nettle-tea\n```\n\nText {{nettle-tea.pH}} after.\n",
        ));
        let files = site::render(&site, &templates()).unwrap();
        let html = text(&files, "developers.html");
        check_page(open, &html);
        assert_eq!(html.matches("id=\"nettle-tea\"").count(), 1, "{open}");
        assert!(html.contains("Vinegar and soda"), "{open}");
        assert!(!html.contains("trayside-slot"), "{open}");
    }
}

#[test]
fn our_own_marks_can_be_written_about() {
    let mut site = sample();
    site.pages.truncate(1);
    site.pages[0].body =
        pieces("Mark trayside-slot-0-0. and {{nettle-tea.pH}} <b>and</b>\n\n```block nettle-tea\n```\n");
    let html = text(&site::render(&site, &templates()).unwrap(), "developers.html");
    check_page("marks", &html);
    assert!(html.contains("Mark trayside-slot-0-0. and <span class=\"fact whole\">"));
}

#[test]
fn pages_keep_their_names() {
    let mut site = sample();
    for name in ["Index.html", "pages.html", "Findings.html", "facts.html"] {
        site.pages.push(page(name, "", name, "Text."));
    }
    let files = site::render(&site, &templates()).unwrap();
    let names: BTreeSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
    for name in [
        "Index.html",
        "-pages.html",
        "Findings.html",
        "-findings.html",
        "-facts.html",
    ] {
        assert!(names.contains(name), "{name}");
    }
}

#[test]
fn long_sheets_run_over_several_files() {
    let mut site = sample();
    for number in 0..400 {
        let path = format!("log/{number:03}.html");
        site.pages.push(page(
            &path,
            "../",
            "Log",
            "```block quarry-3\n```\n\n```block slate-tin\n```\n",
        ));
    }
    let files = site::render(&site, &templates()).unwrap();
    let names: BTreeSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
    assert!(names.contains("facts-2.html"));
    for (path, html) in html_files(&files) {
        if path.starts_with("facts") {
            assert!(html.matches("<td class=\"figure\"").count() <= 1500, "{path}");
        }
    }
    assert!(text(&files, "facts.html").contains("href=\"facts-2.html\""));
}

#[test]
fn a_mistake_in_a_template_has_its_place() {
    let mistakes = [
        ("site/page.html", "a\nb {{ title ", 2, "site/page.html"),
        ("site/slip.html", "\n\n  {{ fact.colour }}", 3, "site/slip.html"),
        (
            "site/page.html",
            "{% extends \"site/none.html\" %}",
            1,
            "site/page.html",
        ),
    ];
    for (path, text, line, file) in mistakes {
        let overrides = BTreeMap::from([(path.to_owned(), text.to_owned())]);
        let fault = Templates::new(&overrides)
            .and_then(|templates| site::render(&sample(), &templates))
            .expect_err("the template is wrong");
        assert_eq!((fault.file.as_str(), fault.line), (file, line), "{fault}");
        assert!(fault.column >= 1 && !fault.message.is_empty(), "{fault}");
    }
}

#[test]
fn a_notebook_may_bring_its_own_templates() {
    let overrides = BTreeMap::from([
        (
            "site/page.html".to_owned(),
            "{{ title }}|{{ tags | join(sep=\",\") }}".to_owned(),
        ),
        ("site/style.css".to_owned(), "p { color: black }".to_owned()),
        ("card.typ".to_owned(), "{{ not ours".to_owned()),
    ]);
    let files = site::render(&sample(), &Templates::new(&overrides).unwrap()).unwrap();
    assert_eq!(
        text(&files, "class/quarry.html"),
        "A tin at the quarry lake|quarry,class of eight"
    );
    assert_eq!(text(&files, "style.css"), "p { color: black }");
}

/// Writes the site below the build folder, to be looked at: `cargo test --test it write_sample -- --ignored`.
#[test]
#[ignore = "writes files to look at"]
#[expect(clippy::disallowed_methods, reason = "a sample to look at is written to disk")]
fn write_sample() {
    let root = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("site");
    let mut site = sample();
    site.title = "Quarry notebook".to_owned();
    site.pages.retain(|page| !page.path.starts_with("hostile"));
    site.findings.retain(|finding| finding.path != "hostile.md");
    for file in site::render(&site, &templates()).unwrap() {
        let path = root.join(&file.path);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, &file.bytes).unwrap();
    }
}

// Reading what was written.

fn templates() -> Templates {
    Templates::new(&BTreeMap::new()).unwrap()
}

fn rendered() -> Vec<SiteFile> {
    site::render(&sample(), &templates()).unwrap()
}

fn text(files: &[SiteFile], path: &str) -> String {
    let file = files
        .iter()
        .find(|file| file.path == path)
        .unwrap_or_else(|| panic!("{path} is not written"));
    String::from_utf8(file.bytes.to_vec()).unwrap()
}

fn html_files(files: &[SiteFile]) -> Vec<(String, String)> {
    let html = |file: &&SiteFile| file.path.to_lowercase().ends_with(".html");
    files
        .iter()
        .filter(html)
        .map(|file| (file.path.clone(), text(files, &file.path)))
        .collect()
}
