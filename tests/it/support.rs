//! A notebook in memory, proofed, and its findings as a reader sees them.

#![expect(
    clippy::unwrap_used,
    reason = "a helper that fails fails the test that called it"
)]

use trayside::facts::Value;
use trayside::finding::{Finding, Grade};
use trayside::host::Memory;
use trayside::pipeline::{Proof, SETTINGS, Silent, proof};

/// Settings that say nothing odd and draw no finding.
pub(crate) const USUAL: &str = "\
format: 1
title: The usual notebook
by: R. Moss
zone: Europe/Lisbon
scale: 0.1 g
room: 20 °C
place:
  latitude: 38.7
  longitude: -9.1
people:
  count: 1
  minors: no
premises: home
drain:
  asked: the water office
  on: 2031-01-09
  answer: spent fixer to the collection point, the rest to the sewer
press:
  site: {}
";

/// What parts an example's own settings from its page.
const CUT: &str = "---8<---\n";

/// A finding as a reader sees it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Seen {
    /// The rule's name.
    pub(crate) rule: &'static str,
    /// Its grade.
    pub(crate) grade: Grade,
    /// The file.
    pub(crate) path: String,
    /// From 1.
    pub(crate) line: usize,
    /// From 1, in characters.
    pub(crate) column: usize,
    /// The text under its span.
    pub(crate) text: String,
    /// What it says.
    pub(crate) message: String,
}

/// The clock, to see that nothing takes too long.
#[expect(
    clippy::disallowed_methods,
    reason = "what is computed never reads the clock; how long it took is what is tested"
)]
pub(crate) fn now() -> std::time::Instant {
    std::time::Instant::now()
}

/// Proofs a folder.
pub(crate) fn proofed(folder: &Memory) -> Proof {
    proof(folder, &Silent).unwrap()
}

/// Proofs one page beside the usual settings; a page may begin with settings of its own above a line `---8<---`.
pub(crate) fn proofed_page(page: &str) -> Proof {
    let (settings, page) = page.split_once(CUT).unwrap_or((USUAL, page));
    proofed(&Memory::new().with(SETTINGS, settings).with("page.md", page))
}

/// A fact's figure: low, best, high.
pub(crate) fn number(proof: &Proof, name: &str) -> (f64, f64, f64) {
    let fact = proof.facts.named(name);
    let fact = fact.unwrap_or_else(|| panic!("no fact {name}"));
    match &fact.value {
        Ok(Value::Number(range)) => (range.low, range.best, range.high),
        other => panic!("{name} is {other:?}"),
    }
}

/// Every finding that counts, in order of place.
pub(crate) fn seen(proof: &Proof) -> Vec<Seen> {
    let counts = proof.findings.iter().filter(|finding| finding.counts());
    counts.map(|finding| see(proof, finding)).collect()
}

/// One finding as a reader sees it.
pub(crate) fn see(proof: &Proof, finding: &Finding) -> Seen {
    let place = proof.sources.position(finding.span);
    Seen {
        rule: finding.rule.as_str(),
        grade: finding.grade,
        path: proof.sources.path(finding.span.file).to_owned(),
        line: place.line,
        column: place.column,
        text: proof.sources.slice(finding.span).to_owned(),
        message: finding.message.clone(),
    }
}

/// Fails where a span of a finding lies outside its file or within a character.
pub(crate) fn check_spans(proof: &Proof) {
    for finding in &proof.findings {
        let more = finding.related.iter().map(|place| place.span);
        let patch = finding.replacement.iter().map(|replacement| replacement.span);
        for span in std::iter::once(finding.span).chain(more).chain(patch) {
            let text = proof.sources.get(span.file).unwrap().text();
            let cut = text.get(span.start as usize..span.end as usize);
            assert!(cut.is_some(), "{span:?} of {} bytes in {finding:?}", text.len());
        }
    }
}
