//! The site of whole notebooks, from their text to the files: links, privacy, and that the same notebook gives the same bytes.

#![expect(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a helper that fails fails the test that called it; the demo site is written for people to look at"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use trayside::host::{Disk, Host, Memory};
use trayside::pipeline::{Proof, Silent, proof};
use trayside::site::{self, SiteFile, Templates};
use trayside::views::page::{Piece, SiteView};
use trayside::views::site_view;

use crate::site::reader::{check_page, resolve, values};

fn read(host: &dyn Host) -> Proof {
    proof(host, &Silent).unwrap()
}

fn view(proof: &Proof) -> SiteView<'_> {
    site_view::site(
        &proof.notebook,
        &proof.facts,
        &proof.findings,
        &proof.sources,
        &[],
        "0.0.0",
    )
}

fn render(proof: &Proof) -> Vec<SiteFile> {
    site::render(&view(proof), &Templates::new(&BTreeMap::new()).unwrap()).unwrap()
}

fn demo() -> Proof {
    read(&Disk::open(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/recipes"))).unwrap())
}

/// The pages among the files, as text.
fn html(files: &[SiteFile]) -> BTreeMap<&str, &str> {
    files
        .iter()
        .filter(|file| file.path.ends_with(".html"))
        .map(|file| (file.path.as_str(), std::str::from_utf8(&file.bytes).unwrap()))
        .collect()
}

/// Fails where a link within the site leads nowhere.
fn check_links(site: &SiteView<'_>, files: &[SiteFile]) -> usize {
    let mut written: BTreeSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
    written.extend(site.pictures.iter().map(|need| need.to.as_str()));
    let pages = html(files);
    let anchors: BTreeMap<&str, BTreeSet<String>> = pages
        .iter()
        .map(|(path, html)| (*path, values(html, &["id"]).into_iter().collect()))
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
            let target = resolve(page, path).unwrap_or_else(|| panic!("{page}: {link} leaves the site"));
            assert!(written.contains(target.as_str()), "{page}: {link} is not written");
            if !anchor.is_empty() {
                assert!(
                    anchors[target.as_str()].contains(anchor),
                    "{page}: {link} has no anchor"
                );
            }
            followed += 1;
        }
    }
    followed
}

#[test]
fn the_demo_site_is_whole() {
    let proof = demo();
    let site = view(&proof);
    let files = render(&proof);
    for (path, html) in html(&files) {
        check_page(path, html);
    }
    assert!(check_links(&site, &files) > 300);
    assert_eq!(site.pages[0].path, "index.html");
    let out = Path::new(env!("CARGO_TARGET_TMPDIR")).join("demo-site");
    for file in &files {
        let path = out.join(&file.path);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, &file.bytes).unwrap();
    }
}
