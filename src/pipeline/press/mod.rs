//! The second half of the order: views, cards, pictures and site, and the folder that holds them.

#[cfg(feature = "typst")]
mod faults;
#[cfg(feature = "typst")]
mod made_from;
mod only;
#[cfg(feature = "typst")]
mod papers;
mod template_fault;

use std::collections::{BTreeMap, BTreeSet};

#[cfg(feature = "typst")]
use std::sync::atomic::AtomicUsize;

use rayon::prelude::*;

use crate::facts;
use crate::finding::{Finding, Grade, slug};
use crate::host::{Bytes, Host, HostError, Replaced};
use crate::site::{self, SiteFault, SiteFile, Templates};
use crate::source::{FileId, Span};
use crate::views::page::CardLink;
use crate::views::{self, LeftOut, pictures::PictureNeed};

use super::keeping::{self, Keeping};
use super::{Progress, Proof};

#[cfg(feature = "typst")]
use made_from::MadeFrom;
pub use only::{Artefact, Only};

/// The folder that everything is pressed into.
pub const PRESSED: &str = "pressed";

/// The facts of every block, as JSON.
const FACTS: &str = "facts.json";

const VERSION: &str = env!("CARGO_PKG_VERSION");

/// What came of pressing.
#[derive(Debug, Default)]
pub struct Pressing {
    /// What pressing itself found: overflowing cards, missing letters, broken templates, unreadable pictures.
    pub findings: Vec<Finding>,
    /// Cards that were not made, and why.
    pub left_out: Vec<LeftOut>,
    /// Things asked for that this version does not make.
    pub not_yet: Vec<String>,
    /// How many cards there are.
    pub cards: usize,
    /// How many labels there are.
    pub labels: usize,
    /// How many weighing sheets there are.
    pub sheets: usize,
    /// How many log slips there are.
    pub slips: usize,
    /// How many room sheets there are: one or none.
    pub rooms: usize,
    /// How many pages the site has.
    pub pages: usize,
    /// How many files of the site were rendered, rather than taken over from an earlier press.
    pub rendered: usize,
    /// How many documents were typeset, rather than taken over from disk.
    pub typeset: usize,
    /// What changed in the folder.
    pub replaced: Replaced,
    /// What was kept of recipes.
    pub keeping: Keeping,
}

/// A file to be: its path below [`PRESSED`], and its bytes.
pub type File = (String, Bytes);

/// Makes a picture ready for the site, or says why it cannot be shown.
pub type Pictures<'p> = dyn Fn(&PictureNeed) -> Result<Bytes, String> + Sync + 'p;

/// What presses keep for those after them: pages of the site by what stands on them.
#[derive(Debug, Default)]
pub struct Kept {
    /// The notebook's own templates of the site, and all of them compiled.
    templates: Compiled,
    /// The cards that the site linked to.
    links: Vec<CardLink>,
    /// What of the site is kept beside its pages.
    site: site::Kept,
}

/// The notebook's own templates of the site, and all of them compiled.
type Compiled = Option<(BTreeMap<String, String>, Templates)>;

/// Presses what the notebook asks for.
pub fn press(host: &dyn Host, proof: &Proof, progress: &dyn Progress) -> Result<Pressing, HostError> {
    let pictures = |need: &PictureNeed| prepared(host, need);
    press_after(host, proof, progress, &pictures, &mut Kept::default())
}

/// A picture read and made ready.
pub fn prepared(host: &dyn Host, need: &PictureNeed) -> Result<Bytes, String> {
    let bytes = host.read(&need.from).map_err(|error| error.cause.to_string())?;
    let prepared = site::pictures::prepare(&need.to, &bytes);
    prepared.map(Bytes::from).map_err(|unreadable| unreadable.0)
}

/// As [`press`] does, with pages taken over from earlier presses where the same stands on them, and with pictures from
/// somebody who may have them ready: they take longer than all the rest.
pub fn press_after(
    host: &dyn Host,
    proof: &Proof,
    progress: &dyn Progress,
    pictures: &Pictures<'_>,
    kept: &mut Kept,
) -> Result<Pressing, HostError> {
    let wanted = Wanted::of(host, proof, None);
    press_wanted(host, proof, progress, pictures, &wanted, kept)
}

/// Some pages of the site before all else is pressed, by what earlier presses kept; none where a template is broken. A page
/// that links to a card is sure only once the cards are set.
pub fn pages_first(proof: &Proof, pages: &BTreeSet<FileId>, kept: &mut Kept) -> Vec<File> {
    if !Artefact::Site.is_asked(&proof.notebook.settings.press) {
        return Vec::new();
    }
    let links = kept.links.clone();
    let Ok(templates) = templates(proof, &mut kept.templates) else {
        return Vec::new();
    };
    let (view, places) = views::site_view::outline(
        &proof.notebook,
        &proof.facts,
        &proof.findings,
        &proof.sources,
        &links,
        VERSION,
        pages,
    );
    let pages = site::render_pages(&view, &places, templates).unwrap_or_default();
    view.let_go();
    pages.into_iter().map(in_site).collect()
}

/// The site's templates, compiled again only where the notebook's own differ.
fn templates<'k>(proof: &Proof, kept: &'k mut Compiled) -> Result<&'k Templates, SiteFault> {
    // The site knows its templates by their path below `templates/`.
    let own: BTreeMap<String, String> = proof
        .templates
        .iter()
        .filter_map(|(path, text)| Some((path.strip_prefix("templates/")?.to_owned(), text.clone())))
        .collect();
    let compiled = match kept.take() {
        Some((before, compiled)) if before == own => compiled,
        _ => Templates::new(&own)?,
    };
    Ok(&kept.insert((own, compiled)).1)
}

fn in_site(file: SiteFile) -> File {
    (format!("site/{}", file.path), file.bytes)
}

/// Presses only what was named. What was pressed before stays as it is where it is still true, and else it goes: a card
/// that is no longer true would be printed.
pub fn press_only(
    host: &dyn Host,
    proof: &Proof,
    progress: &dyn Progress,
    only: &Only,
) -> Result<Pressing, HostError> {
    let wanted = Wanted::of(host, proof, Some(only));
    let pictures = |need: &PictureNeed| prepared(host, need);
    press_wanted(host, proof, progress, &pictures, &wanted, &mut Kept::default())
}

/// What is made: all that the notebook asks for, or what was named.
struct Wanted<'w> {
    asked: &'w crate::notebook::Press,
    only: Option<&'w Only>,
    host: &'w dyn Host,
    /// What was made of what before.
    #[cfg(feature = "typst")]
    before: MadeFrom,
}

impl<'w> Wanted<'w> {
    fn of(host: &'w dyn Host, proof: &'w Proof, only: Option<&'w Only>) -> Self {
        Self {
            asked: &proof.notebook.settings.press,
            only,
            host,
            #[cfg(feature = "typst")]
            before: MadeFrom::read(host),
        }
    }

    /// Whether an artefact is looked at: what was not named may still be true.
    #[cfg(feature = "typst")]
    fn concerns(&self, artefact: Artefact) -> bool {
        self.only.is_some() || artefact.is_asked(self.asked)
    }

    /// Whether an artefact, or what is made of one block alone, is made now.
    fn names(&self, artefact: Artefact, id: Option<&str>) -> bool {
        match self.only {
            Some(only) => only.names(artefact, id),
            None => artefact.is_asked(self.asked),
        }
    }

    /// What was pressed before, where it is still true.
    #[cfg(feature = "typst")]
    fn still_true(&self, paths: &[String], print: &str) -> Option<Vec<File>> {
        self.before.still_true(self.host, paths, print)
    }

    /// Whether these files, just made, are those that were pressed before.
    fn as_before(&self, files: &[File]) -> bool {
        let same = |(path, bytes): &File| {
            let before = self.host.held(&format!("{PRESSED}/{path}"));
            before.is_some_and(|before| before[..] == bytes[..])
        };
        files.iter().all(same)
    }
}

fn press_wanted(
    host: &dyn Host,
    proof: &Proof,
    progress: &dyn Progress,
    pictures: &Pictures<'_>,
    wanted: &Wanted<'_>,
    kept: &mut Kept,
) -> Result<Pressing, HostError> {
    let not_yet = wanted.asked.not_yet.iter().map(|word| word.value.clone());
    let mut pressing = Pressing {
        not_yet: not_yet.filter(|_| wanted.only.is_none()).collect(),
        ..Pressing::default()
    };
    let mut files = vec![facts_file(FACTS, proof, &|_| true)];
    kept.links = papers(proof, progress, wanted, &mut pressing, &mut files);
    if wanted.names(Artefact::Site, None) {
        site_files(proof, progress, pictures, kept, &mut pressing, &mut files);
    } else if wanted.only.is_some() && host.exists(&format!("{PRESSED}/site/index.html")) {
        // Whether a site is still true can only be told from what it would be now.
        let (mut aside, mut now) = (Pressing::default(), Vec::new());
        site_files(proof, progress, pictures, kept, &mut aside, &mut now);
        if wanted.as_before(&now) {
            pressing.pages = aside.pages;
            files.append(&mut now);
        }
    }
    progress.phase("writing", files.len());
    pressing.replaced = host.replace_folder(PRESSED, &files)?;
    pressing.keeping = keeping::keep(host, &proof.notebook);
    Ok(pressing)
}

/// Everything on paper.
#[cfg(feature = "typst")]
fn papers(
    proof: &Proof,
    progress: &dyn Progress,
    wanted: &Wanted<'_>,
    pressing: &mut Pressing,
    files: &mut Vec<File>,
) -> Vec<CardLink> {
    let press = crate::press::Press::new().with_templates(&proof.templates);
    papers::Papers {
        proof,
        wanted,
        progress,
        press: match latest_date(proof) {
            Some((year, month, day)) => press.dated(year, month, day),
            None => press,
        },
        pressing,
        files,
        made_from: MadeFrom::default(),
        typeset: AtomicUsize::new(0),
    }
    .all()
}

/// Without typst nothing can be set; that is said, not passed over.
#[cfg(not(feature = "typst"))]
fn papers(
    _: &Proof,
    _: &dyn Progress,
    wanted: &Wanted<'_>,
    pressing: &mut Pressing,
    _: &mut Vec<File>,
) -> Vec<CardLink> {
    let on_paper = Artefact::ALL
        .into_iter()
        .filter(|artefact| *artefact != Artefact::Site);
    for artefact in on_paper.filter(|artefact| wanted.names(*artefact, None)) {
        pressing.not_yet.push(format!(
            "{} (this trayside was built without typst)",
            artefact.word()
        ));
    }
    Vec::new()
}

fn facts_file(path: &str, proof: &Proof, shown: &dyn Fn(&str) -> bool) -> File {
    let text = facts::render::json(&proof.notebook, &proof.facts, &proof.sources, shown);
    (path.to_owned(), text.into_bytes().into())
}

/// The latest date of the notebook's pages: what a PDF is dated with, so that the same notebook gives the same bytes.
#[cfg(feature = "typst")]
pub fn latest_date(proof: &Proof) -> Option<(i32, u8, u8)> {
    let dates = proof.notebook.pages.iter().filter_map(|page| page.date.get());
    let latest = dates.map(|date| date.value.at.date()).max()?;
    Some((
        i32::from(latest.year()),
        u8::try_from(latest.month()).ok()?,
        u8::try_from(latest.day()).ok()?,
    ))
}

fn site_files(
    proof: &Proof,
    progress: &dyn Progress,
    ready: &Pictures<'_>,
    kept: &mut Kept,
    pressing: &mut Pressing,
    files: &mut Vec<File>,
) {
    progress.phase("setting pages", proof.notebook.pages.len());
    let view = views::site_view::site(
        &proof.notebook,
        &proof.facts,
        &proof.findings,
        &proof.sources,
        &kept.links,
        VERSION,
    );
    pressing.pages = view.pages.len();
    let public = views::paths::public_blocks(&proof.notebook);
    let is_public = |id: &str| public.contains(id);
    let render = || {
        templates(proof, &mut kept.templates).and_then(|templates| {
            let rendered = site::render_after(&view, templates, &mut kept.site);
            pressing.rendered = templates.turn();
            rendered
        })
    };
    let (rendered, csv) = rayon::join(render, || {
        facts::render::csv(&proof.notebook, &proof.facts, &proof.sources, &is_public)
    });
    let whole = rendered.is_ok();
    match rendered {
        Ok(rendered) => files.extend(rendered.into_iter().map(in_site)),
        Err(fault) => pressing.findings.push(template_fault::of_site(proof, &fault)),
    }
    files.push(match files.first() {
        // Where nothing is private, it is the notebook's own.
        Some((path, bytes)) if path == FACTS && public.is_all() => {
            (format!("site/{FACTS}"), Bytes::clone(bytes))
        }
        _ => facts_file(&format!("site/{FACTS}"), proof, &is_public),
    });
    files.push(("site/facts.csv".to_owned(), csv.into_bytes().into()));
    progress.phase("preparing pictures", view.pictures.len());
    let pictures: Vec<Result<File, Box<Finding>>> = view
        .pictures
        .par_iter()
        .map(|need| picture(proof, need, ready(need)))
        .collect();
    for picture in pictures {
        match picture {
            Ok(file) => files.push(file),
            Err(finding) => pressing.findings.push(*finding),
        }
    }
    if !whole {
        return;
    }
    // Last: it lists all others.
    let written: Vec<site::offline::Written<'_>> = files
        .iter()
        .filter_map(|(path, bytes)| Some((path.strip_prefix("site/")?, bytes)))
        .collect();
    let offline = site::offline::files(&view, &written, &mut kept.site.hashes);
    files.extend(offline.into_iter().map(in_site));
    view.let_go();
}

fn picture(proof: &Proof, need: &PictureNeed, ready: Result<Bytes, String>) -> Result<File, Box<Finding>> {
    match ready {
        Ok(bytes) => Ok((format!("site/{}", need.to), bytes)),
        Err(why) => Err(Box::new(
            Finding::new(
                slug::PICTURE_UNREADABLE,
                Grade::Fault,
                picture_place(proof, &need.from),
                format!("the picture `{}` cannot be shown: {why}", need.from),
            )
            .help("save it as PNG, JPEG or TIFF"),
        )),
    }
}

/// Where a picture is first named.
fn picture_place(proof: &Proof, path: &str) -> Span {
    let pages = proof.notebook.pages.iter().zip(&proof.notebook.texts);
    let mut links = pages.flat_map(|(head, page)| page.links.iter().map(move |link| (head, link)));
    let named = links
        .find(|(head, link)| crate::syntax::resolve(&head.path, &link.target.value).as_deref() == Some(path));
    named.map_or_else(|| Span::new(proof.settings, 0, 0), |(_, link)| link.target.span)
}
