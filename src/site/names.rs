//! The names of the pages that no one wrote: the list of pages, the findings, the search and the like.

use std::collections::BTreeSet;

use serde::Serialize;

use crate::views::file_name::alike;
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
    /// The search.
    pub search: String,
    /// The contact sheet.
    pub contact: String,
    /// The journal.
    pub journal: String,
    /// Its feed.
    pub feed: String,
    /// The list of tags.
    pub tags: String,
    /// The folder of the pages of each tag.
    pub tag_folder: String,
    /// The folder of lasting addresses.
    pub at_folder: String,
    /// What a server shows where there is no page: it has to have this name.
    pub not_found: String,
    /// What is shown without a network in place of a page that is not kept.
    pub not_kept: String,
    /// The paths of the notebook's own pages, as systems see them that tell the fewest apart.
    #[serde(skip)]
    taken: BTreeSet<String>,
}

impl Names {
    /// The names for `site`.
    pub fn of(site: &SiteView<'_>) -> Self {
        let taken: BTreeSet<String> = site.pages.iter().map(|page| alike(&page.path)).collect();
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
            search: free(&taken, "search"),
            contact: free(&taken, "contact"),
            journal: free(&taken, "journal"),
            feed: "journal.xml".to_owned(),
            tags: free(&taken, "tags"),
            tag_folder: free_folder(&taken, "tags"),
            at_folder: free_folder(&taken, "at"),
            not_found: free(&taken, "404"),
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

    /// The names of a page that grows at its end and runs over `count` files: the last as given, those before it
    /// `contact-1.html` and so on.
    pub(super) fn ending(&self, last: &str, count: usize) -> Vec<String> {
        let stem = last.strip_suffix(".html").unwrap_or(last);
        let before = (1..count).map(|number| free(&self.taken, &format!("{stem}-{number}")));
        before.chain((count > 0).then(|| last.to_owned())).collect()
    }
}

/// A folder that no page of the notebook stands in.
fn free_folder(taken: &BTreeSet<String>, name: &str) -> String {
    let mut folder = name.to_owned();
    while taken.iter().any(|path| {
        path.strip_prefix(&folder)
            .is_some_and(|rest| rest.starts_with('/'))
    }) {
        folder.insert(0, '-');
    }
    folder
}

fn free(taken: &BTreeSet<String>, stem: &str) -> String {
    let mut name = format!("{stem}.html");
    while taken.contains(&name) {
        name.insert(0, '-');
    }
    name
}
