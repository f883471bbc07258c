//! What prose refers to: facts, blocks, pages and pictures. Part of reading, but it needs the facts to be known.

use std::collections::BTreeMap;

use rayon::prelude::*;

use crate::facts::{Facts, KeptBack, Open};
use crate::finding::{Finding, Grade, slug};
use crate::notebook::{Audience, Body, Kind, Notebook, PageHead, going_on, nearest};
use crate::source::{ByName, FileId, Span, Spanned};
use crate::syntax::{Link, LinkKind, Page, Reference, is_elsewhere, resolve, shown_as_is, written_on};

/// Checks every reference, link and picture of every page. `exists` tells whether a file is in the notebook.
pub fn check_prose(
    notebook: &Notebook,
    facts: &Facts,
    exists: &(dyn Fn(&str) -> bool + Sync),
) -> Vec<Finding> {
    let pages: Pages<'_> = notebook
        .pages
        .iter()
        .zip(&notebook.texts)
        .map(|(head, page)| (head.path.as_str(), page))
        .collect();
    let shown = Shown::of(notebook, facts);
    let of_page = |(head, page): (&PageHead, &Page)| -> Vec<Finding> {
        let references = page.references.iter();
        let facts = references.filter_map(|reference| {
            fact(notebook, facts, reference).or_else(|| shown.as_ref()?.left_out(head, reference))
        });
        let links = page.links.iter();
        let links = links.filter_map(|one| link(notebook, &pages, head, page, one, exists));
        facts.chain(links).collect()
    };
    let both = notebook.pages.par_iter().zip(&notebook.texts);
    let mut findings: Vec<Finding> = both.map(of_page).collect::<Vec<_>>().concat();
    findings.extend(scans(notebook, exists));
    findings
}

/// Every page by its path.
type Pages<'n> = ByName<&'n str, &'n Page>;

/// The files that blocks name as their scans.
fn scans<'n>(
    notebook: &'n Notebook,
    exists: &'n (dyn Fn(&str) -> bool + Sync),
) -> impl Iterator<Item = Finding> + 'n {
    let heads: BTreeMap<FileId, &PageHead> = notebook.pages.iter().map(|head| (head.file, head)).collect();
    notebook.blocks.iter().filter_map(move |block| {
        let file = match &block.body {
            Body::Exposure(exposure) => exposure.scan.get()?.file.get()?,
            Body::Print(print) => print.scan.get()?.file.get()?,
            Body::Camera(camera) => camera.scan.get()?,
            _ => return None,
        };
        let head = heads.get(&block.page)?;
        scan(head, file, exists)
    })
}

fn scan(head: &PageHead, file: &Spanned<String>, exists: &(dyn Fn(&str) -> bool + Sync)) -> Option<Finding> {
    let path = &file.value;
    let inside = if is_elsewhere(path) {
        None
    } else {
        resolve(&head.path, path)
    };
    let Some(full) = inside else {
        return Some(
            Finding::fault(
                slug::LINK_OUTSIDE,
                file.span,
                format!("`{path}` leads out of the notebook folder"),
            )
            .help("put the scan into the folder, beside its page"),
        );
    };
    if exists(&full) {
        return no_picture(&full, path, file.span);
    }
    Some(
        Finding::fault(
            slug::PICTURE_MISSING,
            file.span,
            format!("there is no scan `{path}`"),
        )
        .help(match cased(&full, exists) {
            Some(near) => format!("did you mean `{}`?", written_on(&head.path, &near)),
            None => format!("looked for `{full}` from the notebook folder"),
        }),
    )
}

/// That a file is there which pages cannot show, by how its name ends.
fn no_picture(full: &str, path: &str, span: Span) -> Option<Finding> {
    shown_as_is(full).is_none().then(|| {
        Finding::fault(
            slug::PICTURE_UNREADABLE,
            span,
            format!("`{path}` is of a kind that is not shown: its words stand alone"),
        )
        .help("save it as PNG, JPEG or TIFF; a drawing may hold script, so none is shown as such")
    })
}

/// What the site shows of the facts.
struct Shown<'n> {
    notebook: &'n Notebook,
    open: Open<'n>,
    kept_back: KeptBack,
}

impl<'n> Shown<'n> {
    /// None where nothing is private: then all is shown.
    fn of(notebook: &'n Notebook, facts: &Facts) -> Option<Self> {
        let open = Open::of(notebook);
        (!open.is_all()).then(|| Self {
            notebook,
            kept_back: KeptBack::of(&facts.learned, &|id| open.contains(id)),
            open,
        })
    }

    /// A figure that is known and that the site leaves out of a public page.
    fn left_out(&self, head: &PageHead, reference: &Reference) -> Option<Finding> {
        let name = &reference.name;
        let (id, short) = name.value.split_once('.')?;
        let block = self.notebook.block(id)?;
        let why = if !self.open.has(block) {
            let page = self.notebook.pages.iter().find(|page| page.file == block.page);
            if page.is_some_and(|page| page.audience != Audience::Public) {
                format!("`{id}` stands on a private page")
            } else {
                format!("`{id}` is computed from what stands on a private page")
            }
        } else if self.kept_back.holds(block, short) {
            format!("`{}` was learnt from sheets on a private page", name.value)
        } else {
            return None;
        };
        (head.audience == Audience::Public).then(|| {
            Finding::new(
                slug::FACT_PRIVATE,
                Grade::Doubt,
                name.span,
                format!("{why}: the site leaves this figure out"),
            )
            .help("leave it out of the sentence, or make that page public")
        })
    }
}

fn fact(notebook: &Notebook, facts: &Facts, reference: &Reference) -> Option<Finding> {
    let name = &reference.name;
    if facts.named(&name.value).is_some() {
        return None;
    }
    let (id, short) = name.value.split_once('.').unwrap_or((&name.value, ""));
    let Some(block) = notebook.block(id) else {
        let mut finding = Finding::fault(slug::FACT_UNKNOWN, name.span, format!("there is no block `{id}`"));
        finding = match nearest(id, notebook.ids()) {
            Some(near) => {
                let whole = if short.is_empty() {
                    near.to_owned()
                } else {
                    format!("{near}.{short}")
                };
                finding
                    .help(format!("did you mean `{whole}`?"))
                    .replace(name.span, whole)
            }
            None if notebook.lost_a_name(&Kind::ALL) => return None,
            None => finding.help(
                "write the id of a block, a point and the name of a fact, such as `{{ oat-drum.f-number }}`",
            ),
        };
        return Some(finding);
    };
    let of_block = facts.of_block(id);
    // Where the name was taken twice, which is told already, the second block may be meant.
    let twice = || {
        notebook
            .blocks
            .iter()
            .any(|other| other.doubled && other.id == id)
    };
    if of_block.is_empty() && block.broken || twice() {
        return None;
    }
    let message = if short.is_empty() {
        format!("`{id}` is a block: which of its facts is meant?")
    } else {
        format!("{} has no fact `{short}`", block.kind().with_article())
    };
    let mut finding = Finding::fault(slug::FACT_UNKNOWN, name.span, message);
    let known = of_block.iter().map(|fact| fact.name.as_ref());
    finding = match nearest(short, known.clone()) {
        Some(near) => finding
            .help(format!("did you mean `{id}.{near}`?"))
            .replace(name.span, format!("{id}.{near}")),
        None if of_block.is_empty() => {
            finding.help(format!("nothing is computed for {}", block.kind().with_article()))
        }
        None => {
            let names: Vec<String> = known.map(|name| format!("`{name}`")).collect();
            finding.help(format!("known of `{id}` are {}", names.join(", ")))
        }
    };
    Some(finding)
}

fn link(
    notebook: &Notebook,
    pages: &Pages<'_>,
    head: &PageHead,
    page: &Page,
    link: &Link,
    exists: &(dyn Fn(&str) -> bool + Sync),
) -> Option<Finding> {
    let target = &link.target;
    let written = target.value.as_str();
    if written.is_empty() {
        return Some(broken(target, "this link leads nowhere").help("write where it leads"));
    }
    if is_elsewhere(written) {
        return (link.kind == LinkKind::Picture).then(|| {
            broken(
                target,
                "a picture from elsewhere is not shown: nothing leaves the notebook folder",
            )
            .help("save it beside the page")
        });
    }
    let (path, anchor) = written.split_once('#').unwrap_or((written, ""));
    if path.is_empty() {
        return anchor_finding(notebook, page, target, anchor);
    }
    let Some(full) = resolve(&head.path, path) else {
        return Some(
            Finding::fault(
                slug::LINK_OUTSIDE,
                target.span,
                format!("`{path}` leads out of the notebook folder"),
            )
            .help("put the file into the folder, or link to an address"),
        );
    };
    if let Some(page) = pages.get(full.as_str()) {
        return anchor_finding(notebook, page, target, anchor);
    }
    if exists(&full) {
        let picture = link.kind == LinkKind::Picture;
        return picture.then(|| no_picture(&full, path, target.span)).flatten();
    }
    let rule = if link.kind == LinkKind::Picture {
        slug::PICTURE_MISSING
    } else {
        slug::LINK_BROKEN
    };
    let what = if link.kind == LinkKind::Picture {
        "picture"
    } else {
        "page or file"
    };
    let mut finding = Finding::new(
        rule,
        Grade::Fault,
        target.span,
        format!("there is no {what} `{path}`"),
    );
    // `hash#tag.md` is a page of that name only if the sign is written otherwise.
    let whole =
        resolve(&head.path, written).filter(|whole| pages.get(whole.as_str()).is_some() || exists(whole));
    let near = if link.kind == LinkKind::Picture {
        cased(&full, exists)
    } else {
        nearest(&full, pages.names().copied()).map(str::to_owned)
    };
    finding = match whole.or(near) {
        Some(near) => finding.help(format!("did you mean `{}`?", written_on(&head.path, &near))),
        None => finding.help(format!("looked for `{full}` from the notebook folder")),
    };
    Some(finding)
}

/// The file that a name means which was written in other letters: cameras write `.JPG`, and some systems do not care.
fn cased(path: &str, exists: &(dyn Fn(&str) -> bool + Sync)) -> Option<String> {
    let (stem, ending) = path.rsplit_once('.')?;
    let (folder, name) = stem
        .rsplit_once('/')
        .map_or(("", stem), |(folder, name)| (folder, name));
    let gap = if folder.is_empty() { "" } else { "/" };
    let names = [name.to_owned(), name.to_lowercase(), name.to_uppercase()];
    let endings = [ending.to_lowercase(), ending.to_uppercase(), ending.to_owned()];
    names
        .iter()
        .flat_map(|name| {
            endings
                .iter()
                .map(move |ending| format!("{folder}{gap}{name}.{ending}"))
        })
        .find(|path| exists(path))
}

fn broken(target: &Spanned<String>, message: impl Into<String>) -> Finding {
    Finding::fault(slug::LINK_BROKEN, target.span, message)
}

fn anchor_finding(
    notebook: &Notebook,
    page: &Page,
    target: &Spanned<String>,
    anchor: &str,
) -> Option<Finding> {
    let heading = page.anchors.iter().any(|known| known == anchor);
    if anchor.is_empty() || notebook.block(anchor).is_some() || heading {
        return None;
    }
    let mut finding = broken(target, format!("there is no block or heading `{anchor}`"));
    let before = target.value.split_once('#').map_or("", |(before, _)| before);
    let anchors = page.anchors.iter().map(String::as_str);
    let known = || notebook.ids().chain(anchors.clone());
    finding = match nearest(anchor, known()).or_else(|| going_on(anchor, known())) {
        Some(near) => finding
            .help(format!("did you mean `{before}#{near}`?"))
            .replace(target.span, format!("{before}#{near}")),
        None => finding.help("write `#` and the id of a block"),
    };
    Some(finding)
}
