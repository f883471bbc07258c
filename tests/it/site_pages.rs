//! The site of whole notebooks, from their text to the files: links, privacy, and that the same notebook gives the same bytes.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::format_collect,
    clippy::case_sensitive_file_extension_comparisons,
    clippy::disallowed_methods,
    reason = "a helper that fails fails the test that called it; the demo site is written for people to look at"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use trayside::host::{Disk, Host, Memory};
use trayside::pipeline::{self, Proof, Silent, proof};
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
    // The pipeline writes these beside the pages.
    written.extend(["facts.json", "facts.csv"]);
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

#[test]
fn facts_of_the_demo_stand_where_they_are_mentioned() {
    let proof = demo();
    let files = render(&proof);
    let pages = html(&files);
    let fact = |name: &str| {
        proof
            .facts
            .named(name)
            .unwrap()
            .text(proof.notebook.settings.style)
    };
    let index = pages["index.html"];
    let f_number = fact("lamp-box.f-number");
    assert!(index.contains(&format!(
        "the lamp box works at <span class=\"fact whole\">{f_number}</span>"
    )));
    assert!(pages["log/next.html"].contains("it should need about <span class=\"fact"));
    assert!(
        !pages.values().any(|html| html.contains("{{")),
        "a reference was left as it was written"
    );
}

#[test]
fn the_same_notebook_gives_the_same_bytes() {
    assert!(render(&demo()) == render(&demo()));
}

const SETTINGS: &str = "title: Weir notebook\nzone: Europe/Oslo\n";

const CAMERA: &str = "```camera
id: crate
title: Fish crate
pinhole: 0.4 mm
distance: 100 mm
format: 10×15 cm
scan: hole.png
```
";

/// Every file as one text, to search for what must not be there.
fn all(files: &[SiteFile]) -> String {
    files
        .iter()
        .filter(|file| !file.path.starts_with("fonts/"))
        .map(|file| format!("{}\n{}\n", file.path, String::from_utf8_lossy(&file.bytes)))
        .collect()
}

#[test]
fn a_private_page_leaks_nothing() {
    let private = "---
title: Sluice plans
audience: private
---

# Sluice plans

An owl sits on the gate. ![gate](owl.png)

```camera
id: owlbox
title: Owl box
pinhole: 0.4 mm
distance: 131 mm
format: 10×15 cm
nonsense: wrongkey
```

```recipe
id: owl-tea
title: Owl tea
role: developer
makes: 1 l
add:
  dried feverfew: 17 g
```

```exposure
id: owl-1
when: 2031-06-01 10:00
camera: crate
paper: plain
light: EV 12
scan: owl.png
```
";
    let public = "# Weir

See [the plans](secret/plans.md), [again](secret/plans.md#owlbox), [the box](#owlbox) and [the crate](#crate).
It works at {{ owlbox.f-number }} and {{ crate.f-number }}, but {{ owlbocks.f-number }} is a slip of the pen.

```camera
id: crate
title: Fish crate
pinhole: 0.4 mm
distance: 100 mm
format: 10×15 cm
```

```exposure
id: weir-1
when: 2031-06-02 10:00
camera: owlbox
paper: plain
```

```recipe
id: derived
title: Derived tea
based on: owl-tea
add:
  washing soda, crystals: 50 g
```
";
    let host = Memory::new()
        .with("trayside.yaml", SETTINGS)
        .with("secret/plans.md", private)
        .with("secret/owl.png", "x")
        .with("weir.md", public);
    let proof = read(&host);
    let site = view(&proof);
    let files = render(&proof);
    check_links(&site, &files);
    assert!(site.pictures.is_empty());
    let text = all(&files);
    let f_number = proof.facts.named("owlbox.f-number").unwrap();
    let f_number = f_number.text(proof.notebook.settings.style);
    assert!(text.contains("f/250"));
    for secret in [
        "Sluice",
        "plans.html",
        "plans.md",
        "secret/",
        "An owl",
        "owl.png",
        "Owl box",
        "Owl tea",
        "owl-1",
        "131 mm",
        "131\u{a0}mm",
        "feverfew",
        "17 g",
        "nonsense",
        f_number.as_str(),
    ] {
        assert!(!text.contains(secret), "{secret} is told");
    }
    // What the public page says itself stays as it is.
    assert!(text.contains("See the plans, again, the box and <a href=\"#crate\">the crate</a>."));
    let open = trayside::views::paths::public_blocks(&proof.notebook);
    let ids = proof.notebook.ids().filter(|id| open.contains(id));
    assert_eq!(ids.collect::<Vec<_>>(), ["crate"]);
}

#[test]
fn links_follow_blocks_pages_headings_and_pictures() {
    let page = "# A day

[box](#crate), [page](deep/b.md), [anchor](deep/b.md#crate), [heading](#a-day), [nothing](#nothing),
[file](list.csv), [picture](hole.tif), [mail](mailto:a@example.org), <https://example.org/x>
![hole](hole.tif) ![none](none.png)
";
    let host = Memory::new()
        .with("trayside.yaml", SETTINGS)
        .with("day & night.md", page)
        .with(
            "deep/b.md",
            format!("# Fish crate\n\n{CAMERA}\n[up](<../day & night.md#a-day>)\n"),
        )
        .with("deep/hole.png", "x")
        .with("list.csv", "x")
        .with("hole.tif", "x");
    let proof = read(&host);
    let site = view(&proof);
    let files = render(&proof);
    check_links(&site, &files);
    let pages = html(&files);
    let day = pages["day & night.html"];
    for part in [
        "<a href=\"deep/b.html#crate\">box</a>, <a href=\"deep/b.html\">page</a>, <a href=\"deep/b.html#crate\">anchor</a>",
        "<a href=\"#a-day\">heading</a>, nothing",
        "\nfile, <a href=\"pictures/hole.tif.png\">picture</a>, <a href=\"mailto:a@example.org\">mail</a>",
        "<img src=\"pictures/hole.tif.png\" alt=\"hole\" /> none",
    ] {
        assert!(day.contains(part), "{part} is not in {day}");
    }
    let deep = pages["deep/b.html"];
    assert!(
        deep.contains("<a href=\"../day%20%26%20night.html#a-day\">up</a>"),
        "{deep}"
    );
    assert!(deep.contains("<img src=\"../pictures/deep/hole.png\""), "{deep}");
    let needs: Vec<(&str, &str)> = site
        .pictures
        .iter()
        .map(|need| (need.from.as_str(), need.to.as_str()))
        .collect();
    assert_eq!(
        needs,
        [
            ("deep/hole.png", "pictures/deep/hole.png"),
            ("hole.tif", "pictures/hole.tif.png"),
        ]
    );
}

#[test]
fn a_heading_and_a_block_of_one_name_have_two_anchors() {
    let page = format!("# Boxes\n\n## Crate\n\n## Crate\n\n{CAMERA}\n[it](#crate), [second](#crate-2)\n");
    let host = Memory::new().with("trayside.yaml", SETTINGS).with("a.md", page);
    let proof = read(&host);
    let files = render(&proof);
    check_links(&view(&proof), &files);
    let page = html(&files)["a.html"];
    check_page("a.html", page);
    assert!(page.contains("<section class=\"block camera\" id=\"crate\""));
    assert!(page.contains("<h2 id=\"crate.heading\">Crate</h2>"), "{page}");
    assert!(page.contains("<h2 id=\"crate-2\">Crate</h2>"), "{page}");
}

#[test]
fn blocks_stand_in_lists_and_quotes_and_broken_ones_show_their_text() {
    let indented = |prefix: &str| {
        CAMERA
            .lines()
            .map(|line| format!("{prefix}{line}\n"))
            .collect::<String>()
    };
    let page = format!(
        "# Mixed\n\n- one\n\n{}- two\n\n> said\n>\n{}\n```rust\nlet a = {{{{ crate.f-number }}}};\n```\n\n```recipe\n- a list <b>\n```\n\n{{{{crate.f-number}}}}{{{{ crate.f-number }}}} and *{{{{ crate.f-number }}}}* &amp; {{{{ crate.none }}}}\n",
        indented("  ")
            .replace("crate", "in-list")
            .replace("Fish crate", "In list"),
        indented("> "),
    );
    let host = Memory::new().with("trayside.yaml", SETTINGS).with("a.md", page);
    let proof = read(&host);
    let site = view(&proof);
    let kinds: Vec<&str> = site.pages[0]
        .body
        .iter()
        .filter_map(|piece| match piece {
            Piece::Block(block) => Some(block.id.as_str()),
            _ => None,
        })
        .collect();
    assert_eq!(kinds.len(), 3, "{kinds:?}");
    assert_eq!(kinds[..2], ["in-list", "crate"]);
    let files = render(&proof);
    let page = html(&files)["a.html"];
    check_page("a.html", page);
    assert!(
        page.contains("<pre class=\"source\">- a list &lt;b&gt;"),
        "{page}"
    );
    assert!(page.contains("let a = {{ crate.f-number }};"), "{page}");
    assert!(page.contains("A recipe that cannot be read"), "{page}");
    let facts = page.matches("<span class=\"fact whole\">f/250</span>").count();
    assert_eq!(facts, 3, "{page}");
    assert!(page.contains("&amp; {{ crate.none }}"), "{page}");
}

#[test]
fn what_is_written_is_shown_as_it_was_meant() {
    let page = "# Shelf\n\n- [ ] ask\n- [x] weigh\n\n```ingredient\nmaterial: thyme, dried\nform: dried\n```\n\n```paper\nid: plain\nbase: RC\nreciprocity: {value: 1.2, evidence: guessed}\n```\n\n```exposure\nid: e\nwhen: 2031-06-02\nresult: 1/2 stop thin\n```\n";
    let host = Memory::new().with("trayside.yaml", SETTINGS).with("a.md", page);
    let files = render(&read(&host));
    let page = html(&files)["a.html"];
    check_page("a.html", page);
    for needed in [
        "<li><span class=\"task\">☐</span> ask</li>",
        "<li><span class=\"task\">☑</span> weigh</li>",
        // A material is called by its name, and its form is not said twice.
        ">thyme, dried</a></h2>\n</header>",
        "reciprocity <small class=\"remark\">guessed</small>",
        "needs +1/2",
    ] {
        assert!(page.contains(needed), "{needed}: {page}");
    }
}

#[test]
fn a_word_in_angle_brackets_is_a_word() {
    let page = "# Every form of <writing>\n\n## Of <b>bold</b> </words>\n\nWrite <name> here, <i>not</i> <script>there</script>.\n";
    let files = render(&read(
        &Memory::new().with("trayside.yaml", SETTINGS).with("a.md", page),
    ));
    let text = html(&files)["a.html"];
    check_page("a.html", text);
    for part in [
        "<title>Every form of &lt;writing&gt; –",
        "<h1 id=\"every-form-of-writing\">Every form of &lt;writing&gt;</h1>",
        "<h2 id=\"of-bold-words\">Of <b>bold</b> &lt;/words&gt;</h2>",
        "Write &lt;name&gt; here, <i>not</i> .",
    ] {
        assert!(text.contains(part), "{part} is not in {text}");
    }
    assert_eq!(text.matches("Every form of").count(), 2, "{text}");
}

#[test]
fn a_scan_that_is_not_there_is_found() {
    let page = "# Sheets\n\n```print\nid: p\nwhen: 2031-06-02\npaper: plain\nscan: scans/p.png\n```\n\n```exposure\nid: e\nwhen: 2031-06-02\ncamera: c\npaper: plain\nscan:\n  file: ../../e.png\n```\n";
    let host = Memory::new().with("trayside.yaml", SETTINGS).with("a.md", page);
    let proof = read(&host);
    let rules: Vec<&str> = proof
        .findings
        .iter()
        .map(|finding| finding.rule.as_str())
        .collect();
    assert!(rules.contains(&"picture-missing"), "{rules:?}");
    assert!(rules.contains(&"link-outside"), "{rules:?}");
    let site = view(&proof);
    assert!(site.pictures.is_empty());
    check_links(&site, &render(&proof));
}

/// A log page of three blocks that refer to one camera, one paper and one recipe.
fn log_page(number: usize) -> String {
    format!(
        "---\ntitle: Day {number}\ndate: 2031-05-02\n---\n\n# Day {number}\n\nThe box works at {{{{ crate.f-number }}}}, see [it](#crate) and [before](day-{}.md).\n\n```exposure\nid: sheet-{number}\nwhen: 2031-05-02 10:00\ncamera: crate\npaper: plain\nlight: EV 12\nresult: right\n```\n\n```batch\nid: batch-{number}\nof: tea\nmade: 2031-05-02 18:00\nvolume: 1 l\n```\n\n```session\nid: session-{number}\nwhen: 2031-05-02 19:00\nprocess: line\nbaths:\n  tea: batch-{number}\ntemperature: 22 °C\nsheets: [sheet-{number}]\n```\n",
        number.saturating_sub(1)
    )
}

#[test]
fn two_thousand_pages_take_no_longer_each_than_two_hundred() {
    let common = format!(
        "# Common\n\n{CAMERA}\n```paper\nid: plain\nbase: RC\nspeed: 3\n```\n\n```recipe\nid: tea\nrole: developer\nmakes: 1 l\nadd:\n  washing soda, crystals: 50 g\n```\n\n```process\nid: line\nsteps:\n  - bath: tea\n    time: 4 min\n    light: red\n```\n"
    );
    for count in [200, 2000] {
        let host = Memory::new()
            .with("trayside.yaml", SETTINGS)
            .with("common.md", common.clone())
            .with("hole.png", "x");
        for number in 0..count {
            host.put(&format!("day-{number}.md"), log_page(number));
        }
        let watch = trayside::host::Stopwatch::start();
        let proof = read(&host);
        let proofed = watch.elapsed();
        let watch = trayside::host::Stopwatch::start();
        let site = view(&proof);
        let viewed = watch.elapsed();
        let files = site::render(&site, &Templates::new(&BTreeMap::new()).unwrap()).unwrap();
        let rendered = watch.elapsed();
        println!(
            "{count} pages: read in {proofed:?}, views in {viewed:?}, views and pages in {rendered:?}, {} kB",
            files.iter().map(|file| file.bytes.len()).sum::<usize>() / 1000
        );
        let camera = html(&files)["common.html"];
        assert!(camera.contains(&format!("{count} sheets")), "{camera}");
        assert!(camera.contains(&format!("{} more", count - 12)));
        assert_eq!(site.pages.len(), count + 1);
    }
}

#[test]
fn what_is_kept_at_first_has_an_end_and_begins_with_what_is_needed_at_the_trays() {
    let recipe = "```recipe\ntitle: Stop\nrole: stop\nmakes: 1 l\nadd:\n  citric acid: 15 g\n```\n";
    let host = Memory::new()
        .with("trayside.yaml", "title: Large\n")
        .with("zz.md", recipe);
    for page in 0..40 {
        host.put(
            &format!("{page:02}.md"),
            format!("# {page}\n\n{}\n", "words ".repeat(100_000)),
        );
    }
    pipeline::press(&host, &read(&host), &Silent).unwrap();
    let files = host.files();
    let site: BTreeMap<&str, &[u8]> = files
        .iter()
        .filter_map(|(path, bytes)| Some((path.strip_prefix("pressed/site/")?, bytes.as_slice())))
        .collect();
    let kept: serde_json::Value = serde_json::from_slice(site["kept.json"]).unwrap();
    let first = kept["first"]
        .as_array()
        .unwrap()
        .iter()
        .map(|path| path.as_str().unwrap());
    let first: Vec<&str> = first.collect();
    let size: usize = first.iter().map(|path| site[path].len()).sum();
    assert!((15_000_000..=16_000_000).contains(&size), "{size}");
    let order = ["style.css", "index.html", "zz.html", "00.html"]
        .map(|path| first.iter().position(|kept| *kept == path));
    assert!(
        order.iter().all(Option::is_some) && order.is_sorted(),
        "{order:?}"
    );
    assert!(!first.contains(&"39.html"));
    let listed: BTreeSet<&str> = kept["files"]
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect();
    let own = ["kept.json", "worker.js", "site.webmanifest"];
    let others: BTreeSet<&str> = site.keys().copied().filter(|path| !own.contains(path)).collect();
    assert_eq!(listed, others);
}

#[test]
fn a_folder_with_the_name_of_a_file_of_the_site_stands_beside_it() {
    let folders = [
        "one.html",
        "index.html",
        "style.css",
        "facts.json",
        "search/m-all.js",
        "at/x.html",
        "pictures/dot.PNG",
        "v1.2",
    ];
    let host = Memory::new()
        .with("trayside.yaml", "title: Names\nzone: UTC\n")
        .with("one.md", "# One\n\n[two](one.html/two.md)\n");
    for folder in folders {
        host.put(&format!("{folder}/two.md"), "# Two\n");
    }
    let proof = read(&host);
    let files = render(&proof);
    assert!(check_links(&view(&proof), &files) > 0);
    let paths: BTreeSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
    assert_eq!(paths.len(), files.len());
    for path in &paths {
        for (at, _) in path.match_indices('/') {
            assert!(!paths.contains(&path[..at]), "{path} stands below a file");
        }
    }
}
