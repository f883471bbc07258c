//! The index cut into files: a table of contents, the words by their first letters, and what stands on the pages.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::sync::Arc;

use rayon::prelude::*;

use super::RANKS;
use crate::site::SiteFile;
use crate::site::page::Made;
use crate::site::script::harmless;
use crate::source::fnv_32;

/// A page by its path, and what was read of it.
type Page<'p> = (&'p str, &'p Arc<Made>);

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

/// The index as it was cut last, to be cut again only where a page changed.
#[derive(Debug, Default)]
pub(in crate::site) struct Kept {
    pages: Vec<(String, Arc<Made>)>,
    /// By the letters that their words begin with.
    words: BTreeMap<Key, SiteFile>,
    /// By the shard.
    texts: BTreeMap<u32, SiteFile>,
}

/// What of an index is cut again; none where all is.
type Others = Option<(BTreeSet<Key>, BTreeSet<u32>)>;

/// The index of a site: `pages` are its pages by their path, and what was read of each.
pub(in crate::site) fn files(pages: &[Page<'_>], kept: &mut Kept) -> Vec<SiteFile> {
    let numbers = numbers(pages.iter().map(|(path, _)| *path));
    let deep = pages.len() >= MANY_PAGES;
    let bits = shard_bits(pages.len());
    let others = others(pages, &numbers, deep, bits, kept);
    let is_other = |key: Key| others.as_ref().is_none_or(|(keys, _)| keys.contains(&key));
    let words = by_letters(pages, &numbers, deep, &is_other);
    let of_words = words.into_par_iter().map(|(key, words)| {
        let text = key.text();
        (key, file("w", &text, &json(&word_lines(words))))
    });
    let of_words: Vec<(Key, SiteFile)> = of_words.collect();
    let shards = others.as_ref().map(|(_, shards)| shards);
    let of_texts = texts(pages, &numbers, bits, shards);
    match &others {
        None => {
            kept.words.clear();
            kept.texts.clear();
        }
        // The last page with such words, or of a shard, may be gone from it.
        Some((keys, shards)) => {
            kept.words.retain(|key, _| !keys.contains(key));
            kept.texts.retain(|shard, _| !shards.contains(shard));
        }
    }
    kept.words.extend(of_words);
    kept.texts.extend(of_texts);
    let owned = |(path, made): &Page<'_>| ((*path).to_owned(), Arc::clone(made));
    kept.pages = pages.iter().map(owned).collect();
    let mut files = vec![contents(pages.len(), deep, bits, kept.words.keys())];
    files.extend(kept.words.values().chain(kept.texts.values()).cloned());
    files
}

/// What has to be cut again, where the pages are those of the last time and few of them changed.
fn others(pages: &[Page<'_>], numbers: &[u32], deep: bool, bits: u32, kept: &Kept) -> Others {
    let mut before = kept.pages.iter();
    let same_paths = kept.pages.len() == pages.len()
        && pages
            .iter()
            .all(|(path, _)| before.next().is_some_and(|(known, _)| known == path));
    if !same_paths {
        return None;
    }
    let (mut keys, mut shards) = (BTreeSet::new(), BTreeSet::new());
    for (((_, now), number), (_, was)) in pages.iter().zip(numbers).zip(&kept.pages) {
        if Arc::ptr_eq(now, was) {
            continue;
        }
        shards.insert(number >> (BITS - bits));
        for (now, was) in now.index.words.iter().zip(&was.index.words) {
            let [now, was]: [BTreeSet<&str>; 2] =
                [now, was].map(|words| words.split_terminator(' ').collect());
            keys.extend(now.symmetric_difference(&was).map(|word| Key::of(word, deep)));
        }
    }
    Some((keys, shards))
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

fn contents<'k>(pages: usize, deep: bool, bits: u32, keys: impl Iterator<Item = &'k Key>) -> SiteFile {
    let mut keys: Vec<String> = keys.map(|key| key.text()).collect();
    keys.sort_unstable();
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
    let mut taken = BTreeSet::new();
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
    pages: &[Page<'p>],
    numbers: &[u32],
    deep: bool,
    wanted: &dyn Fn(Key) -> bool,
) -> BTreeMap<Key, Vec<Posting<'p>>> {
    let mut shards: BTreeMap<Key, Vec<Posting<'p>>> = BTreeMap::new();
    for ((_, made), &number) in pages.iter().zip(numbers) {
        for (rank, words) in made.index.words.iter().enumerate() {
            // Words are in order: those of one shard come together.
            let mut open: Option<(Key, Vec<Posting<'p>>)> = None;
            for word in words.split_terminator(' ') {
                let key = Key::of(word, deep);
                match &mut open {
                    Some((of, postings)) if *of == key => postings.push((word, rank, number)),
                    _ if !wanted(key) => {}
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

/// The shard of a word: its first letter or two, or a number for those of other alphabets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Key {
    Nothing,
    Letters([u8; 2]),
    Other(u8),
}

impl Key {
    fn of(word: &str, deep: bool) -> Self {
        let mut chars = word.bytes();
        let Some(first) = word.chars().next() else {
            return Self::Nothing;
        };
        match chars.next() {
            Some(byte) if byte.is_ascii_alphanumeric() => {
                let second = chars.next().filter(|byte| deep && byte.is_ascii_alphanumeric());
                Self::Letters([byte, second.unwrap_or(b'-')])
            }
            _ => Self::Other((u32::from(first) % OTHER_LETTERS) as u8),
        }
    }

    /// As it is written in names.
    fn text(self) -> String {
        match self {
            Self::Nothing => String::new(),
            Self::Letters(letters) => letters.into_iter().map(char::from).collect(),
            Self::Other(number) => format!("u-{number}"),
        }
    }
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
fn texts(
    pages: &[Page<'_>],
    numbers: &[u32],
    bits: u32,
    wanted: Option<&BTreeSet<u32>>,
) -> Vec<(u32, SiteFile)> {
    let mut shards: BTreeMap<u32, Vec<(u32, &str)>> = BTreeMap::new();
    for ((_, made), &number) in pages.iter().zip(numbers) {
        let shard = number >> (BITS - bits);
        if wanted.is_none_or(|wanted| wanted.contains(&shard)) {
            shards
                .entry(shard)
                .or_default()
                .push((number, &made.index.record));
        }
    }
    shards
        .into_par_iter()
        .map(|(shard, mut pages)| {
            pages.sort_unstable();
            let records: Vec<String> = pages
                .iter()
                .map(|(number, record)| harmless(&format!("[{number},{record}]")))
                .collect();
            let text = format!("[{}]", records.join(",\n"));
            (shard, file("p", &shard.to_string(), &text))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::search::PageIndex;

    fn page(words: &str) -> Arc<Made> {
        let index = PageIndex {
            words: [String::new(), String::new(), String::new(), format!("{words} ")],
            record: format!("\"{words}\""),
        };
        Arc::new(Made {
            index,
            summary: String::new(),
        })
    }

    fn changed(before: &[Page<'_>], after: &[Page<'_>]) -> Vec<String> {
        let mut kept = Kept::default();
        let (before, after, anew) = (
            files(before, &mut kept),
            files(after, &mut kept),
            files(after, &mut Kept::default()),
        );
        assert_eq!(after, anew);
        let new = after.iter().filter(|file| !before.contains(file));
        new.map(|file| file.path.clone()).collect()
    }

    #[test]
    fn an_edit_changes_the_shards_of_its_words_alone() {
        let (a, b, c) = (page("rosemary soda"), page("soda weir"), page("oat soda weir"));
        let before = [("a.html", &a), ("b.html", &b)];
        assert_eq!(
            changed(&before, &[("a.html", &a), ("b.html", &c)]),
            ["search/m-all.js", "search/w-o-.js", "search/p-0.js"]
        );
    }

    #[test]
    fn words_of_other_letters_lie_in_files_of_their_own() {
        // The letter π has the number 960, which leaves nothing over 64.
        let page = page("u u0 u0-9 πορεία");
        let paths: Vec<String> = (0..MANY_PAGES).map(|at| format!("{at}.html")).collect();
        let pages: Vec<Page<'_>> = paths.iter().map(|path| (path.as_str(), &page)).collect();
        let files = files(&pages, &mut Kept::default());
        let names: BTreeSet<&str> = files.iter().map(|file| file.path.as_str()).collect();
        assert_eq!(names.len(), files.len());
        for name in ["search/w-u-.js", "search/w-u0.js", "search/w-u-0.js"] {
            assert!(names.contains(name), "{names:?}");
        }
    }

    #[test]
    fn a_new_page_moves_no_other() {
        let paths: Vec<String> = (0..5000).map(|at| format!("log/{at}.html")).collect();
        let before = numbers(paths.iter().map(String::as_str));
        let with = std::iter::once("a.html").chain(paths.iter().map(String::as_str));
        let after = numbers(with);
        let moved = before.iter().zip(&after[1..]).filter(|(a, b)| a != b).count();
        assert!(moved <= 1, "{moved}");
        let distinct: BTreeSet<_> = after.iter().collect();
        assert_eq!(distinct.len(), after.len());
    }

    #[test]
    fn the_number_of_shards_is_bounded() {
        let pages: Vec<(String, Arc<Made>)> = (0..3000u32)
            .map(|at| {
                let word: String = (0..4)
                    .filter_map(|place| char::from_u32(33 + (at * 7919 + place * 104_729) % 20_000))
                    .filter(|c| c.is_alphanumeric())
                    .collect();
                (format!("{at}.html"), page(&word.to_lowercase()))
            })
            .collect();
        let pages: Vec<Page<'_>> = pages.iter().map(|(path, page)| (path.as_str(), page)).collect();
        let most = 1 + 36 * 37 + OTHER_LETTERS as usize + (1 << MOST_BITS);
        assert!(files(&pages, &mut Kept::default()).len() <= most);
        assert_eq!(shard_bits(1_000_000), MOST_BITS);
        assert_eq!((shard_bits(0), shard_bits(9), shard_bits(10_000)), (0, 0, 10));
    }

    #[test]
    fn numbers_are_written_short() {
        assert_eq!(differences(&[0, 1, 32, 1057]), "01VXW1");
        assert_eq!(differences(&[]), "");
    }
}
