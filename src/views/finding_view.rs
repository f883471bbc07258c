//! Findings, worded for a page.

use std::collections::BTreeMap;

use crate::finding::{Finding, Grade, Standing};
use crate::notebook::Notebook;
use crate::source::{FileId, Sources, Span};

use super::page::FindingView;
use super::paths::Places;

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
    pub(super) fn summary(&self) -> String {
        let open = || self.by_file.values().flatten().filter(|finding| finding.counts());
        let words: Vec<String> = Grade::ALL
            .into_iter()
            .map(|grade| (grade, open().filter(|finding| finding.grade == grade).count()))
            .filter(|(_, count)| *count > 0)
            .map(|(grade, count)| format!("{count} {grade}{}", if count == 1 { "" } else { "s" }))
            .collect();
        let quiet = self
            .by_file
            .values()
            .flatten()
            .filter(|finding| !finding.counts())
            .count();
        match (words.is_empty(), quiet) {
            (true, 0) => "nothing found".to_owned(),
            (true, quiet) => format!("nothing that counts; {quiet} expected or acknowledged"),
            (false, 0) => words.join(", "),
            (false, quiet) => format!("{}; {quiet} expected or acknowledged", words.join(", ")),
        }
    }
}

fn gravest_first(mut findings: Vec<&Finding>) -> Vec<&Finding> {
    findings.sort_by_key(|finding| (finding.grade, finding.span.start));
    findings
}

/// A finding in words. `href` is the address from the site's root of the block it stands in.
pub(super) fn view(
    finding: &Finding,
    notebook: &Notebook,
    places: &Places<'_>,
    sources: &Sources,
    href: Option<String>,
) -> FindingView {
    let at = sources.position(finding.span);
    FindingView {
        grade: finding.grade.word().to_owned(),
        rule: finding.rule.as_str().to_owned(),
        message: finding.message.clone(),
        help: finding
            .help
            .clone()
            .filter(|help| !names_private(help, notebook, places)),
        path: sources.path(finding.span.file).to_owned(),
        line: at.line,
        column: at.column,
        href,
        standing: match &finding.standing {
            Standing::Open => None,
            Standing::Expected => Some("expected here".to_owned()),
            Standing::Acknowledged(reason) => Some(format!("acknowledged: {reason}")),
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
