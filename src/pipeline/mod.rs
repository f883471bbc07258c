//! The order of the phases, and nothing else: folder, pages, notebook, facts, rules; then views, cards and site, and the
//! folder that holds them.

mod keeping;
mod press;
mod text;

use std::collections::BTreeMap;
use std::sync::Arc;

use rayon::prelude::*;

use crate::facts::Facts;
use crate::finding::{Finding, Grade, Summary, slug};
use crate::host::{Host, HostError, Listed, ListedKind};
use crate::notebook::{self, Notebook};
use crate::rules;
use crate::source::{FileId, Intake, Sources, Span};

use text::{Text, Unread, read_text};

pub use keeping::Keeping;
#[cfg(feature = "typst")]
pub use press::latest_date;
pub use press::{
    Artefact, File, Kept, Only, PRESSED, Pictures, Pressing, pages_first, prepared, press, press_after,
    press_only,
};

/// The name of the file that makes a folder a notebook.
pub const SETTINGS: &str = "trayside.yaml";

/// A notebook that was read, computed and checked.
#[derive(Debug)]
pub struct Proof {
    /// Its files.
    pub sources: Sources,
    /// `trayside.yaml`, empty where there is none.
    pub settings: FileId,
    /// Templates of its own, by path.
    pub templates: BTreeMap<String, String>,
    /// What they say.
    pub notebook: Notebook,
    /// What follows.
    pub facts: Facts,
    /// What there is to say about it, in order of place.
    pub findings: Vec<Finding>,
    /// How many pages were read, rather than taken over from an earlier proof.
    pub pages_read: usize,
    /// How many blocks had their facts computed.
    pub blocks_computed: usize,
}

impl Proof {
    /// How many findings of each grade count.
    pub fn summary(&self) -> Summary {
        Summary::of(&self.findings)
    }
}

/// Told how far the work is, so that a person can be told.
pub trait Progress: Sync {
    /// A phase begins, over so many things.
    fn phase(&self, name: &'static str, things: usize);
}

/// Tells nobody.
#[derive(Debug, Clone, Copy)]
pub struct Silent;

impl Progress for Silent {
    fn phase(&self, _: &'static str, _: usize) {}
}

/// Reads, computes and checks a notebook. Fails only where the folder itself cannot be looked at.
pub fn proof(host: &dyn Host, progress: &dyn Progress) -> Result<Proof, HostError> {
    proof_after(host, None, progress)
}

/// As [`proof`] does, with what has not changed since an earlier proof taken over from it. Every page whose text differs is
/// read, every fact that such a page can reach is computed, and every rule looks at everything.
pub fn proof_after(
    host: &dyn Host,
    mut before: Option<Proof>,
    progress: &dyn Progress,
) -> Result<Proof, HostError> {
    let mut findings = Vec::new();
    let folder = read_folder(host, before.as_ref(), progress, &mut findings)?;
    progress.phase("reading", folder.pages.len());
    let input = notebook::Input {
        sources: &folder.sources,
        settings: folder.settings,
        no_settings: folder.no_settings,
        pages: &folder.pages,
        partial: folder.partial,
    };
    let kept_before = before
        .as_mut()
        .map(|before| std::mem::take(&mut before.notebook.kept));
    let (notebook_before, facts_before) = before.map(|before| (before.notebook, before.facts)).unzip();
    let (mut notebook, mut read, mut changes) = notebook::read_after(&input, notebook_before);
    findings.append(&mut read);
    let kept_before = kept_before.unwrap_or_default();
    findings.extend(notebook.take_kept(&folder.sources, &folder.kept, &kept_before, &mut changes));
    notebook.measure_holes(&|path| host.read_shared(path).ok(), &mut changes);
    progress.phase("computing", notebook.blocks.len());
    let facts_before = facts_before.map(|facts| (facts, &changes));
    let (facts, blocks_computed) = Facts::of_after(&notebook, facts_before);
    progress.phase("checking", notebook.blocks.len());
    findings.extend(rules::check(&notebook, &facts));
    findings.extend(rules::check_prose(&notebook, &facts, &|path| host.exists(path)));
    let findings = rules::settle(&notebook, findings);
    Ok(Proof {
        sources: folder.sources,
        settings: folder.settings,
        templates: folder.templates,
        notebook,
        facts,
        findings,
        pages_read: changes.read.len(),
        blocks_computed,
    })
}

/// A folder's texts.
struct Folder {
    sources: Sources,
    settings: FileId,
    no_settings: bool,
    pages: Vec<FileId>,
    templates: BTreeMap<String, String>,
    /// The files of `kept/`.
    kept: Vec<FileId>,
    partial: bool,
}

fn read_folder(
    host: &dyn Host,
    before: Option<&Proof>,
    progress: &dyn Progress,
    findings: &mut Vec<Finding>,
) -> Result<Folder, HostError> {
    let listed = host.list()?;
    let wanted: Vec<&Listed> = listed.iter().filter(|thing| is_text(&thing.path)).collect();
    progress.phase("opening", wanted.len());
    let mut sources = before.map_or_else(Intake::default, |before| Intake::after(&before.sources));
    let texts: Vec<Result<Text, Unread>> = wanted
        .par_iter()
        .map(|thing| read_text(host, thing, sources.before(&thing.path)))
        .collect();
    let mut settings = None;
    let mut pages = Vec::with_capacity(texts.len());
    let mut no_settings = false;
    // Settings first, so that findings about them stand first.
    for first in [true, false] {
        for (thing, text) in wanted.iter().zip(&texts) {
            if (thing.path == SETTINGS) != first {
                continue;
            }
            let held = text.as_ref().map(|text| Arc::clone(&text.text));
            let id = sources.add(thing.path.clone(), held.unwrap_or_default());
            match text {
                Ok(text) => findings.extend(text.finding(id)),
                Err(unread) => {
                    findings.push(unread.finding(id));
                    no_settings |= first;
                }
            }
            if first {
                settings = Some(id);
            } else if text.is_ok() {
                pages.push(id);
            }
        }
        if first && settings.is_none() {
            let id = sources.add(SETTINGS, "");
            settings = Some(id);
            no_settings = true;
            findings.push(
                Finding::fault(
                    slug::NO_SETTINGS,
                    Span::new(id, 0, 0),
                    format!("this folder has no {SETTINGS}"),
                )
                .help("make one with at least `title: ...`, or start with `trayside begin`"),
            );
        }
    }
    for thing in &listed {
        if let Some(finding) = odd_thing(thing, &mut sources) {
            findings.push(finding);
        }
    }
    let templates = templates(host, &listed, &mut sources, findings);
    let kept = keeping::read(host, &mut sources, findings)?;
    let settings = settings.unwrap_or(FileId(0));
    Ok(Folder {
        kept,
        sources: sources.done(),
        settings,
        no_settings,
        pages,
        templates,
        partial: texts.iter().any(Result::is_err),
    })
}

/// The notebook's own templates: `templates/press/card.typ`, `templates/site/page.html`. They stand among the sources, so
/// that a mistake in one has a place.
fn templates(
    host: &dyn Host,
    listed: &[Listed],
    sources: &mut Intake<'_>,
    findings: &mut Vec<Finding>,
) -> BTreeMap<String, String> {
    let own = listed.iter().filter(|thing| {
        let ending = thing.path.rsplit_once('.').map_or("", |(_, ending)| ending);
        thing.path.starts_with("templates/")
            && matches!(ending, "typ" | "html" | "css")
            && matches!(
                thing.kind,
                ListedKind::File { .. } | ListedKind::LinkOutside | ListedKind::LinkNowhere(_)
            )
    });
    let mut templates = BTreeMap::new();
    for thing in own {
        match read_text(host, thing, None) {
            Ok(text) => {
                let id = sources.add(thing.path.clone(), Arc::clone(&text.text));
                findings.extend(text.finding(id));
                let text = sources
                    .get(id)
                    .map_or_else(String::new, |file| file.text().to_string());
                templates.insert(thing.path.clone(), text);
            }
            Err(unread) => {
                let id = sources.add(thing.path.clone(), "");
                findings.push(unread.finding(id));
            }
        }
    }
    templates
}

fn is_text(path: &str) -> bool {
    path == SETTINGS
        || path
            .rsplit('/')
            .next()
            .and_then(|name| name.rsplit_once('.'))
            .is_some_and(|(stem, end)| end.eq_ignore_ascii_case("md") && !stem.is_empty())
}

/// A link or folder that is not read, where no page of that name says so already.
fn odd_thing(thing: &Listed, sources: &mut Intake<'_>) -> Option<Finding> {
    if is_text(&thing.path) {
        return None;
    }
    let (rule, grade, message) = match &thing.kind {
        ListedKind::File { .. } | ListedKind::LinkOutside | ListedKind::LinkNowhere(_) => return None,
        ListedKind::LinkedFolder => (
            slug::LINK_OUTSIDE,
            Grade::Doubt,
            "a linked folder is not read: it may lead round in a circle".to_owned(),
        ),
        ListedKind::Unreadable(why) => (
            slug::FILE_UNREADABLE,
            Grade::Fault,
            format!("it cannot be read: {why}"),
        ),
    };
    let id = sources.add(thing.path.clone(), "");
    Some(Finding::new(rule, grade, Span::new(id, 0, 0), message))
}
