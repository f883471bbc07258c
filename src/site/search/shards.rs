//! The index cut into files: a table of contents, the words by their first letters, and what stands on the pages.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use rayon::prelude::*;

use super::{PageIndex, RANKS};
use crate::site::SiteFile;
use crate::site::script::harmless;
use crate::source::fnv_32;

/// The folder of the index.
const FOLDER: &str = "search";

/// The bits of a page's number.
const BITS: u32 = 24;

/// From this many pages on, words lie together by two letters and no longer by one.
const MANY_PAGES: usize = 200;

/// About how many pages lie in one shard, and the most shards that there are, as a power of two.
const PAGES_A_SHARD: usize = 8;
const MOST_BITS: u32 = 10;

/// How many shards there are for words that begin with other letters than a to z and digits.
const OTHER_LETTERS: u32 = 64;

/// The index of a site: `pages` are its pages by their path.
pub(in crate::site) fn files(pages: &[(&str, &PageIndex)]) -> Vec<SiteFile> {
    let numbers = numbers(pages.iter().map(|(path, _)| *path));
    let deep = pages.len() >= MANY_PAGES;
    let bits = shard_bits(pages.len());
    let words = by_letters(pages, &numbers, deep);
    let mut files = vec![contents(pages.len(), deep, bits, words.keys())];
    files.extend(
        words
            .into_par_iter()
            .map(|(key, words)| file("w", &key, &json(&word_lines(words))))
            .collect::<Vec<_>>(),
    );
    files.extend(texts(pages, &numbers, bits));
    files
}

/// A file that hands its part to the engine.
fn file(kind: &str, key: &str, data: &str) -> SiteFile {
    SiteFile::text(
        format!("{FOLDER}/{kind}-{key}.js"),
        format!("traysideSearch({}, {}, {data});\n", json(kind), json(key)),
    )
}

/// Text as a literal of the script, in which nothing could end the script or its line.
fn json(text: &str) -> String {
    harmless(&serde_json::Value::from(text).to_string())
}

fn contents<'k>(pages: usize, deep: bool, bits: u32, keys: impl Iterator<Item = &'k String>) -> SiteFile {
    let keys: Vec<&String> = keys.collect();
    let data = serde_json::json!({"pages": pages, "deep": deep, "shift": BITS - bits, "words": keys});
    file("m", "all", &harmless(&data.to_string()))
}

/// Of how many bits a page's number is cut down to for the shard of its text.
fn shard_bits(pages: usize) -> u32 {
    (pages / PAGES_A_SHARD)
        .next_power_of_two()
        .trailing_zeros()
        .min(MOST_BITS)
}

/// A number for each path, in the order given: from the path alone, but for the few that would share one.
fn numbers<'p>(paths: impl Iterator<Item = &'p str>) -> Vec<u32> {
    const MASK: u32 = (1 << BITS) - 1;
    let mut sorted: Vec<(usize, &str)> = paths.enumerate().collect();
    sorted.sort_by_key(|(_, path)| *path);
    let mut numbers = vec![0; sorted.len()];
    let mut taken = std::collections::BTreeSet::new();
    for (at, path) in sorted {
        let mut number = hash(path) & MASK;
        while !taken.insert(number) {
            number = (number + 1) & MASK;
        }
        if let Some(slot) = numbers.get_mut(at) {
            *slot = number;
        }
    }
    numbers
}

/// A number of few bits: FNV-1a, folded as its authors advise.
fn hash(text: &str) -> u32 {
    let full = fnv_32(text.as_bytes());
    full ^ (full >> BITS)
}

/// The pages of a word, by rank.
#[derive(Debug, Default)]
struct Pages {
    by_rank: [Vec<u32>; RANKS],
}

/// A word, its rank on a page, and the page.
type Posting<'p> = (&'p str, usize, u32);

fn by_letters<'p>(
    pages: &[(&str, &'p PageIndex)],
    numbers: &[u32],
    deep: bool,
) -> BTreeMap<String, Vec<Posting<'p>>> {
    let mut shards: BTreeMap<String, Vec<Posting<'p>>> = BTreeMap::new();
    for ((_, page), &number) in pages.iter().zip(numbers) {
        for (rank, words) in page.words.iter().enumerate() {
            // Words are in order: those of one shard come together.
            let mut open: Option<(String, Vec<Posting<'p>>)> = None;
            for word in words.split_terminator(' ') {
                let key = key(word, deep);
                match &mut open {
                    Some((of, postings)) if *of == key => postings.push((word, rank, number)),
                    _ => {
                        if let Some((key, postings)) = open.replace((key, vec![(word, rank, number)])) {
                            shards.entry(key).or_default().extend(postings);
                        }
                    }
                }
            }
            if let Some((key, postings)) = open {
                shards.entry(key).or_default().extend(postings);
            }
        }
    }
    shards
}

/// The shard of a word: its first letter or two, and a number for those of other alphabets.
fn key(word: &str, deep: bool) -> String {
    let mut chars = word.chars();
    let Some(first) = chars.next() else {
        return String::new();
    };
    if !first.is_ascii_alphanumeric() {
        return format!("u{}", u32::from(first) % OTHER_LETTERS);
    }
    let mut key = String::from(first);
    key.push('-');
    if deep {
        key.pop();
        key.push(match chars.next() {
            Some(second) if second.is_ascii_alphanumeric() => second,
            _ => '-',
        });
    }
    key
}

/// A line for each word: the word, a space, and its pages by rank with commas between.
fn word_lines(mut postings: Vec<Posting<'_>>) -> String {
    postings.sort_unstable();
    let mut words: BTreeMap<&str, Pages> = BTreeMap::new();
    for (word, rank, number) in postings {
        if let Some(pages) = words.entry(word).or_default().by_rank.get_mut(rank) {
            pages.push(number);
        }
    }
    let mut out = String::new();
    for (word, pages) in words {
        let _ = write!(out, "{word} ");
        let fields: Vec<String> = pages.by_rank.iter().map(|pages| differences(pages)).collect();
        out.push_str(fields.join(",").trim_end_matches(','));
        out.push('\n');
    }
    out
}

/// Rising numbers, each as its distance from the one before, five bits a character, the lowest first; all characters of a
/// number but its last have the sixth bit.
fn differences(numbers: &[u32]) -> String {
    const DIGITS: &[u8; 64] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_";
    let mut out = String::new();
    let mut last = 0;
    for &number in numbers {
        let mut rest = number.wrapping_sub(last);
        last = number;
        loop {
            let more = if rest > 31 { 32 } else { 0 };
            let digit = DIGITS.get(((rest & 31) | more) as usize).copied().unwrap_or(b'0');
            out.push(char::from(digit));
            rest >>= 5;
            if more == 0 {
                break;
            }
        }
    }
    out
}

/// What stands on the pages, by their numbers.
fn texts(pages: &[(&str, &PageIndex)], numbers: &[u32], bits: u32) -> Vec<SiteFile> {
    let mut shards: BTreeMap<u32, Vec<(u32, &str)>> = BTreeMap::new();
    for ((_, page), &number) in pages.iter().zip(numbers) {
        shards
            .entry(number >> (BITS - bits))
            .or_default()
            .push((number, &page.record));
    }
    shards
        .into_par_iter()
        .map(|(shard, mut pages)| {
            pages.sort_unstable();
            let records: Vec<String> = pages
                .iter()
                .map(|(number, record)| harmless(&format!("[{number},{record}]")))
                .collect();
            file("p", &shard.to_string(), &format!("[{}]", records.join(",\n")))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn index(words: &str) -> PageIndex {
        PageIndex {
            words: [String::new(), String::new(), String::new(), format!("{words} ")],
            record: "\"x\"".into(),
        }
    }

    fn changed(before: &[(&str, &PageIndex)], after: &[(&str, &PageIndex)]) -> Vec<String> {
        let (before, after) = (files(before), files(after));
        let new = after.iter().filter(|file| !before.contains(file));
        new.map(|file| file.path.clone()).collect()
    }

    #[test]
    fn an_edit_changes_the_shards_of_its_words_alone() {
        let (a, b, c) = (index("rosemary soda"), index("soda weir"), index("oat soda weir"));
        let before = [("a.html", &a), ("b.html", &b)];
        assert_eq!(
            changed(&before, &[("a.html", &a), ("b.html", &c)]),
            ["search/m-all.js", "search/w-o-.js"]
        );
    }

    #[test]
    fn a_new_page_moves_no_other() {
        let paths: Vec<String> = (0..5000).map(|at| format!("log/{at}.html")).collect();
        let before = numbers(paths.iter().map(String::as_str));
        let with = std::iter::once("a.html").chain(paths.iter().map(String::as_str));
        let after = numbers(with);
        let moved = before.iter().zip(&after[1..]).filter(|(a, b)| a != b).count();
        assert!(moved <= 1, "{moved}");
        let distinct: std::collections::BTreeSet<_> = after.iter().collect();
        assert_eq!(distinct.len(), after.len());
    }

    #[test]
    fn the_number_of_shards_is_bounded() {
        let pages: Vec<(String, PageIndex)> = (0..3000u32)
            .map(|at| {
                let word: String = (0..4)
                    .filter_map(|place| char::from_u32(33 + (at * 7919 + place * 104_729) % 20_000))
                    .filter(|c| c.is_alphanumeric())
                    .collect();
                (format!("{at}.html"), index(&word.to_lowercase()))
            })
            .collect();
        let pages: Vec<(&str, &PageIndex)> = pages.iter().map(|(path, page)| (path.as_str(), page)).collect();
        let most = 1 + 36 * 37 + OTHER_LETTERS as usize + (1 << MOST_BITS);
        assert!(files(&pages).len() <= most);
        assert_eq!(shard_bits(1_000_000), MOST_BITS);
        assert_eq!((shard_bits(0), shard_bits(9), shard_bits(10_000)), (0, 0, 10));
    }

    #[test]
    fn numbers_are_written_short() {
        assert_eq!(differences(&[0, 1, 32, 1057]), "01VXW1");
        assert_eq!(differences(&[]), "");
    }
}
