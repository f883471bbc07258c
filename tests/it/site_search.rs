//! The search of the site: every word that is shown is found, no private one is, and an edit changes little of the index.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::case_sensitive_file_extension_comparisons,
    clippy::disallowed_methods,
    reason = "a helper that fails fails the test that called it; the engine is asked in a folder, as a browser would"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::Command;

use trayside::host::{Disk, Host, Memory};
use trayside::pipeline::{Silent, proof};
use trayside::site::{self, SiteFile, Templates};
use trayside::views::site_view;

const SETTINGS: &str = "title: Weir notebook\nzone: Europe/Oslo\n";

fn render(host: &dyn Host) -> Vec<SiteFile> {
    let proof = proof(host, &Silent).unwrap();
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

fn demo() -> Vec<SiteFile> {
    render(&Disk::open(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/recipes"))).unwrap())
}

fn text(file: &SiteFile) -> &str {
    std::str::from_utf8(&file.bytes).unwrap()
}

/// What a shard hands over, as JSON.
fn data(file: &SiteFile) -> serde_json::Value {
    let inside = text(file)
        .strip_prefix("traysideSearch(")
        .and_then(|rest| rest.strip_suffix(");\n"))
        .unwrap_or_else(|| panic!("{}", file.path));
    let all: Vec<serde_json::Value> = serde_json::from_str(&format!("[{inside}]")).unwrap();
    all[2].clone()
}

/// The index read back: each word with the paths of its pages.
fn index(files: &[SiteFile]) -> BTreeMap<String, BTreeSet<String>> {
    let shards = |kind: &'static str| files.iter().filter(move |file| file.path.starts_with(kind));
    let mut paths = BTreeMap::new();
    for shard in shards("search/p-") {
        for page in data(shard).as_array().unwrap() {
            paths.insert(page[0].as_u64().unwrap(), page[1].as_str().unwrap().to_owned());
        }
    }
    let mut words = BTreeMap::new();
    for shard in shards("search/w-") {
        for line in data(shard).as_str().unwrap().lines() {
            let (word, ranks) = line.split_once(' ').unwrap();
            let pages = ranks
                .split(',')
                .flat_map(numbers)
                .map(|page| paths[&page].clone());
            assert!(
                words.insert(word.to_owned(), pages.collect()).is_none(),
                "{word} stands twice"
            );
        }
    }
    words
}

/// Differences of five bits a character, summed up.
fn numbers(written: &str) -> Vec<u64> {
    let digits = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_";
    let (mut all, mut last, mut number, mut shift) = (Vec::new(), 0, 0, 0);
    for c in written.chars() {
        let value = digits.find(c).unwrap() as u64;
        number += (value % 32) << shift;
        shift += 5;
        if value < 32 {
            last += number;
            all.push(last);
            (number, shift) = (0, 0);
        }
    }
    all
}

/// The words of plain letters that a browser shows within a page's article.
fn shown(html: &str) -> BTreeSet<String> {
    let article = html
        .split_once("<article>")
        .unwrap()
        .1
        .split_once("</article>")
        .unwrap()
        .0;
    let mut text = String::new();
    // The figures along a plot are no words.
    let plots: Vec<&str> = article.split("<figure class=\"plotted\">").collect();
    let without: String = plots
        .iter()
        .enumerate()
        .map(|(at, part)| {
            if at == 0 {
                part
            } else {
                part.split_once("</figure>").unwrap().1
            }
        })
        .collect();
    for part in without.split('<').skip(1) {
        let (tag, after) = part.split_once('>').unwrap();
        let name = tag.trim_start_matches('/').split(' ').next().unwrap();
        if !["a", "b", "code", "em", "small", "span", "strong", "sub", "sup"].contains(&name) {
            text.push(' ');
        }
        // The line of a finding is no word.
        if !tag.contains("class=\"place\"") {
            text.push_str(after);
        }
    }
    for (name, c) in [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&#39;", "'"),
        ("&#x27;", "'"),
        ("&amp;", "&"),
    ] {
        text = text.replace(name, c);
    }
    text.split(|c: char| c.is_whitespace() || c.is_ascii_punctuation())
        .filter(|word| !word.is_empty() && word.chars().all(|c| c.is_ascii_alphanumeric()))
        .map(str::to_lowercase)
        .collect()
}

#[test]
fn every_word_that_a_page_shows_finds_it() {
    let files = demo();
    let index = index(&files);
    let mut looked_for = 0;
    for file in files.iter().filter(|file| file.path.ends_with(".html")) {
        let html = text(file);
        if !html.contains("<article>") {
            continue;
        }
        for word in shown(html) {
            // How many findings a page has stands on it as a sum.
            if ["doubts", "hints", "faults", "hazards"].contains(&word.as_str()) {
                continue;
            }
            let pages = index
                .get(&word)
                .unwrap_or_else(|| panic!("{word} of {} is not in the index", file.path));
            assert!(pages.contains(&file.path), "{word} does not find {}", file.path);
            looked_for += 1;
        }
    }
    assert!(looked_for > 4000, "{looked_for}");
}

#[test]
fn private_words_are_not_in_the_index() {
    let host = Memory::new()
        .with("trayside.yaml", SETTINGS)
        .with(
            "plans.md",
            "---\ntitle: Sluice plans\naudience: private\ntags: [hushtag]\n---\n\n# Owlery\n\nWhisper.\n\n```camera\nid: owlbox\ntitle: Mousetrap\npinhole: 0.4 mm\n```\n",
        )
        .with("a.md", "# Weir\n\nSee [the drawings](plans.md) <!-- hidden remark --> and [that](#owlbox). <script>var scripted</script>\n");
    let index = index(&render(&host));
    assert!(index.contains_key("weir") && index.contains_key("drawings"));
    for secret in [
        "sluice",
        "plans",
        "hushtag",
        "owlery",
        "whisper",
        "owlbox",
        "mousetrap",
        "hidden",
        "remark",
        "scripted",
    ] {
        assert!(!index.contains_key(secret), "{secret}");
    }
}

/// A log of so many days, with the text of one of them.
fn log(days: usize, second: &str) -> Vec<SiteFile> {
    let host = Memory::new().with("trayside.yaml", SETTINGS);
    for day in 0..days {
        let text = if day == 2 { second } else { "Grey and still." };
        host.put(
            &format!("log/{day:04}.md"),
            format!("# Day {day}\n\n{text} The weir ran {} high.\n", day * 37 % 101),
        );
    }
    render(&host)
}

#[test]
fn a_save_changes_few_shards() {
    let before = log(400, "Grey and still.");
    let after = log(400, "Grey and sunny, with herons.");
    let changed: Vec<&str> = after
        .iter()
        .filter(|file| file.path.starts_with("search/") && !before.contains(file))
        .map(|file| file.path.as_str())
        .collect();
    // The page's text; the words that came and went; the table of contents, for a beginning that was not there before.
    assert!(changed.len() <= 6, "{changed:?}");
    let shards = after
        .iter()
        .filter(|file| file.path.starts_with("search/"))
        .count();
    assert!(shards > 40, "{shards}");
}

/// Writes a site into a folder of the build and asks its engine there.
fn ask(files: &[SiteFile], name: &str) -> String {
    let root: PathBuf = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&root);
    for file in files {
        let path = root.join(&file.path);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, &file.bytes).unwrap();
    }
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/search/engine.mjs");
    let output = Command::new("node").arg(script).arg(&root).output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.success(), "{said}");
    String::from_utf8_lossy(&output.stdout).into_owned()
}

#[test]
fn the_engine_finds_what_the_index_holds() {
    println!("{}", ask(&demo(), "search-demo"));
}

#[test]
fn the_engine_folds_letters_as_the_index_does() {
    let letters = ('\u{c0}'..='\u{24f}')
        .chain('\u{370}'..='\u{52f}')
        .chain('\u{1e00}'..='\u{1fff}')
        .chain('\u{2070}'..='\u{209f}')
        .chain('\u{2460}'..='\u{24ff}')
        .chain('\u{fb00}'..='\u{fb06}')
        .filter(|c| c.is_alphanumeric());
    let words: Vec<String> = letters.map(|c| format!("q{c}x")).collect();
    let host = Memory::new()
        .with("trayside.yaml", SETTINGS)
        .with(
            "letters.md",
            format!(
                "# Letters\n\n{}\n\n```camera\nid: crate\ntitle: Fish crate 写真\n```\n",
                words.join(" ")
            ),
        )
        .with(
            "other.md",
            format!(
                "# Other\n\nNothing of that. {}\n",
                "A long line of words. ".repeat(30)
            ),
        );
    println!("{}", ask(&render(&host), "search-letters"));
}

#[test]
fn a_large_index_is_asked_in_small_parts() {
    let said = ask(
        &log(
            300,
            "```camera\nid: crate\ntitle: Fish crate\n```\n\nHerons stood by the weir, and the whole of the long afternoon was grey; nobody came past but the miller, who asked what the box was for, laughed at the answer, and sat down for the rest of it, which was two hours and a half by the church clock, less a quarter when the sun came out and the hole was closed again.",
        ),
        "search-log",
    );
    println!("{said}");
}
