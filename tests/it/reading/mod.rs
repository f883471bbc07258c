//! Mistakes of every kind in every kind of block: each gives one finding at its exact word, and costs nothing else.

#![expect(
    clippy::unwrap_used,
    reason = "a helper that fails fails the test that called it"
)]

mod blocks;
mod files;
mod many;
mod shapes;

use std::collections::BTreeMap;

use trayside::host::Memory;
use trayside::pipeline::{Proof, SETTINGS};

use crate::support::{Seen, USUAL, check_spans, proofed, seen};

/// Marks round the word where a finding is awaited.
const OPEN: char = '«';
const CLOSE: char = '»';

/// Blocks that those under test refer to.
const FIXTURES: &str = include_str!("fixtures.md");

/// A notebook of the usual settings, the fixtures and one page.
fn notebook(page: &str) -> Proof {
    let proof = proofed(
        &Memory::new()
            .with(SETTINGS, USUAL)
            .with("fixtures.md", FIXTURES)
            .with("a.png", "")
            .with("page.md", page),
    );
    check_spans(&proof);
    proof
}

/// The page without its marks, and the line, column and text of each marked word.
fn unmarked(page: &str) -> (String, Vec<(usize, usize, String)>) {
    let mut clean = String::new();
    let mut marks: Vec<(usize, usize, String)> = Vec::new();
    let (mut line, mut column, mut inside) = (1, 1, false);
    for c in page.chars() {
        match c {
            OPEN => {
                marks.push((line, column, String::new()));
                inside = true;
                continue;
            }
            CLOSE => {
                inside = false;
                continue;
            }
            '\n' => (line, column) = (line + 1, 1),
            '\u{feff}' if line == 1 && column == 1 => {}
            _ => column += 1,
        }
        if let (true, Some(mark)) = (inside, marks.last_mut()) {
            mark.2.push(c);
        }
        clean.push(c);
    }
    (clean, marks)
}

/// The findings of `page` that `before` does not have, counted by rule.
fn news(before: &[Seen], after: Vec<Seen>) -> Vec<Seen> {
    let mut known: BTreeMap<(&str, String), usize> = BTreeMap::new();
    for one in before {
        *known.entry((one.rule, one.path.clone())).or_default() += 1;
    }
    after
        .into_iter()
        .filter(|one| match known.get_mut(&(one.rule, one.path.clone())) {
            Some(left) if *left > 0 => {
                *left -= 1;
                false
            }
            _ => true,
        })
        .collect()
}

/// What is wrong with the findings of a page whose mistakes are marked, beyond those of the sound page; nothing where each has exactly one, at its
/// mark, of the rule named.
fn wrong(before: &[Seen], marked: &str, rules: &[&str]) -> Option<String> {
    let (page, marks) = unmarked(marked);
    let proof = notebook(&page);
    let found = news(before, seen(&proof));
    let places: Vec<_> = found
        .iter()
        .map(|one| (one.rule, one.line, one.column, one.text.clone()))
        .collect();
    let awaited: Vec<_> = rules
        .iter()
        .zip(&marks)
        .map(|(rule, (line, column, text))| (*rule, *line, *column, text.clone()))
        .collect();
    let whole = proof.facts.named("far-box.f-number").is_some();
    if places == awaited && marks.len() == rules.len() && whole {
        return None;
    }
    Some(format!(
        "{page}\nawaited {awaited:?}\nfound {found:#?}\nother facts kept: {whole}\n"
    ))
}
