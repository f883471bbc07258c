//! Findings, worded for a page.

use std::collections::BTreeMap;

use crate::finding::{Finding, Grade, Standing};
use crate::notebook::Notebook;
use crate::source::{FileId, Sources, Span};

use super::block_view::Desk;
use super::page::FindingView;
use super::paths::Places;
use super::words::{FindingWords, Words};

/// The name of the file of settings, whose findings belong to no page.
const SETTINGS: &str = "trayside.yaml";

/// Findings by file, in order of place.
#[derive(Debug)]
pub(super) struct Found<'a> {
    by_file: BTreeMap<FileId, Vec<&'a Finding>>,
}

impl<'a> Found<'a> {
    /// Those of the public pages and of the settings. What stands on a private page is not told, nor what is the matter with
    /// a page that could not be read at all: nobody knows for whom it is.
    pub(super) fn of(findings: &'a [Finding], places: &Places<'_>, sources: &Sources) -> Self {
        let mut by_file: BTreeMap<FileId, Vec<&Finding>> = BTreeMap::new();
        for finding in findings {
            let file = finding.span.file;
            if places.site_path(file).is_some() || sources.path(file) == SETTINGS {
                by_file.entry(file).or_default().push(finding);
            }
        }
        for of_file in by_file.values_mut() {
            of_file.sort_by_key(|finding| (finding.span.start, finding.grade));
        }
        Self { by_file }
    }

    /// Those that lie within `span`, gravest first.
    pub(super) fn within(&self, span: Span) -> Vec<&'a Finding> {
        let of_file = self.by_file.get(&span.file).map_or(&[][..], Vec::as_slice);
        let from = of_file.partition_point(|finding| finding.span.start < span.start);
        let to = of_file.partition_point(|finding| finding.span.start < span.end);
        gravest_first(of_file.get(from..to).unwrap_or_default().to_vec())
    }

    /// Those of a file, gravest first.
    pub(super) fn of_file(&self, file: FileId) -> Vec<&'a Finding> {
        gravest_first(self.by_file.get(&file).cloned().unwrap_or_default())
    }

    /// The files that have any.
    pub(super) fn files(&self) -> impl Iterator<Item = FileId> {
        self.by_file.keys().copied()
    }

    /// Such as `1 hazard, 2 doubts; 3 expected or acknowledged`.
    pub(super) fn summary(&self, words: &FindingWords) -> String {
        let all = || self.by_file.values().flatten();
        let open = all().filter(|finding| finding.counts());
        let told = tally(open.map(|finding| finding.grade), words);
        let quiet = all().filter(|finding| !finding.counts()).count();
        match (told.is_empty(), quiet) {
            (true, 0) => words.nothing.to_owned(),
            (true, quiet) => Words::fill(words.nothing_counts, &quiet.to_string()),
            (false, 0) => told,
            (false, quiet) => Words::fill_all(words.and_quiet, &[&told, &quiet.to_string()]),
        }
    }
}

/// Such as `1 hazard, 2 doubts`, gravest first; empty where there are none.
pub(crate) fn tally(grades: impl Iterator<Item = Grade>, words: &FindingWords) -> String {
    let mut counts: BTreeMap<Grade, usize> = BTreeMap::new();
    for grade in grades {
        *counts.entry(grade).or_default() += 1;
    }
    let told: Vec<String> = counts
        .into_iter()
        .map(|(grade, count)| {
            let (one, many) = grade_words(grade, words);
            format!("{count} {}", if count == 1 { one } else { many })
        })
        .collect();
    told.join(", ")
}

/// What a grade is called, of one finding and of several.
fn grade_words(grade: Grade, words: &FindingWords) -> (&'static str, &'static str) {
    match grade {
        Grade::Hazard => (words.hazard, words.hazards),
        Grade::Fault => (words.fault, words.faults),
        Grade::Doubt => (words.doubt, words.doubts),
        Grade::Hint => (words.hint, words.hints),
    }
}

fn gravest_first(mut findings: Vec<&Finding>) -> Vec<&Finding> {
    findings.sort_by_key(|finding| (finding.grade, finding.span.start));
    findings
}

/// A finding in words. `href` is the address from the site's root of the block it stands in.
pub(super) fn view(finding: &Finding, desk: &Desk<'_>, href: Option<String>) -> FindingView {
    let (notebook, places, words) = (desk.notebook, &desk.places, &desk.words.site.finding);
    let at = desk.sources.position(finding.span);
    FindingView {
        grade: finding.grade,
        grade_word: grade_words(finding.grade, words).0,
        rule: finding.rule.as_str().to_owned(),
        message: finding.message.clone(),
        help: finding
            .help
            .clone()
            .filter(|help| !names_private(help, notebook, places)),
        path: desk.sources.path(finding.span.file).to_owned(),
        line: at.line,
        column: at.column,
        href,
        standing: match &finding.standing {
            Standing::Open => None,
            Standing::Expected => Some(words.expected.to_owned()),
            Standing::Acknowledged(reason) => Some(Words::fill(words.acknowledged, reason)),
        },
    }
}

/// Whether advice such as "did you mean `...`?" would tell of a block or page that is private.
fn names_private(text: &str, notebook: &Notebook, places: &Places<'_>) -> bool {
    text.split('`').skip(1).step_by(2).any(|quoted| {
        let name = quoted.trim_start_matches('#');
        let id = name.split('.').next().unwrap_or(name);
        let block = |id: &str| notebook.block(id).is_some() && !places.is_open(id);
        block(name) || block(id) || places.is_private_page(name)
    })
}
