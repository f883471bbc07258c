//! The names of the pages that no one wrote: the list of pages, the findings, the facts, and what a reader is told where a
//! page is not kept.

use std::collections::BTreeSet;

use serde::Serialize;

use crate::views::page::SiteView;

/// Where the pages stand that are made besides the notebook's own, as paths from the site's root.
///
/// A page of the notebook always keeps its own path; these move out of its way.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Names {
    /// The page the site opens with: `index.html`.
    pub home: String,
    /// The list of pages: `index.html` where the notebook has none of its own.
    pub list: String,
    /// The findings.
    pub findings: String,
    /// The facts.
    pub facts: String,
    /// What is shown without a network in place of a page that is not kept.
    pub not_kept: String,
    /// The paths of the notebook's own pages, in lower case: some file systems do not tell upper case from lower.
    #[serde(skip)]
    taken: BTreeSet<String>,
}

impl Names {
    /// The names for `site`.
    pub fn of(site: &SiteView<'_>) -> Self {
        let taken: BTreeSet<String> = site.pages.iter().map(|page| page.path.to_lowercase()).collect();
        let home = "index.html".to_owned();
        let list = if taken.contains(&home) {
            free(&taken, "pages")
        } else {
            home.clone()
        };
        let findings = free(&taken, "findings");
        Self {
            home,
            list,
            findings,
            facts: free(&taken, "facts"),
            not_kept: free(&taken, "not-kept"),
            taken,
        }
    }

    /// The names of a page that runs over `count` files: the first as given, then `facts-2.html` and so on.
    pub(super) fn run(&self, first: &str, count: usize) -> Vec<String> {
        let stem = first.strip_suffix(".html").unwrap_or(first);
        let further = (2..=count).map(|number| free(&self.taken, &format!("{stem}-{number}")));
        std::iter::once(first.to_owned()).chain(further).collect()
    }
}

fn free(taken: &BTreeSet<String>, stem: &str) -> String {
    let mut name = format!("{stem}.html");
    while taken.contains(&name) {
        name.insert(0, '-');
    }
    name
}
