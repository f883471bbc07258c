//! The second half of the order: views, cards, pictures and site, and the folder that holds them.

#[cfg(feature = "typst")]
mod faults;
#[cfg(feature = "typst")]
mod made_from;
mod only;
#[cfg(feature = "typst")]
mod papers;
mod template_fault;

use std::collections::BTreeMap;

use rayon::prelude::*;

use crate::facts;
use crate::finding::{Finding, Grade, slug};
use crate::host::{Host, HostError, Replaced};
use crate::site::{self, Templates};
use crate::source::Span;
use crate::views::page::CardLink;
use crate::views::{self, LeftOut, pictures::PictureNeed};

use super::{Progress, Proof};

#[cfg(feature = "typst")]
use made_from::MadeFrom;
pub use only::{Artefact, Only};

/// The folder that everything is pressed into.
pub const PRESSED: &str = "pressed";

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
    /// What changed in the folder.
    pub replaced: Replaced,
}

/// A file to be: its path below [`PRESSED`], and its bytes.
type File = (String, Vec<u8>);

/// Makes a picture ready for the site, or says why it cannot be shown.
pub type Pictures<'p> = dyn Fn(&PictureNeed) -> Result<Vec<u8>, String> + Sync + 'p;

/// Presses what the notebook asks for, all at once or not at all.
pub fn press(host: &dyn Host, proof: &Proof, progress: &dyn Progress) -> Result<Pressing, HostError> {
    press_with(host, proof, progress, &|need| prepared(host, need))
}

/// A picture read and made ready.
pub fn prepared(host: &dyn Host, need: &PictureNeed) -> Result<Vec<u8>, String> {
    let bytes = host.read(&need.from).map_err(|error| error.cause.to_string())?;
    site::pictures::prepare(&need.to, &bytes).map_err(|unreadable| unreadable.0)
}

/// As [`press`] does, with pictures from somebody who may have them ready: they take longer than all the rest.
pub fn press_with(
    host: &dyn Host,
    proof: &Proof,
    progress: &dyn Progress,
    pictures: &Pictures<'_>,
) -> Result<Pressing, HostError> {
    let wanted = Wanted::of(host, proof, None);
    press_wanted(host, proof, progress, pictures, &wanted)
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
    press_wanted(host, proof, progress, &|need| prepared(host, need), &wanted)
}

/// What is made: all that the notebook asks for, or what was named.
struct Wanted<'w> {
    asked: &'w crate::notebook::Press,
    only: Option<&'w Only>,
    host: &'w dyn Host,
    /// What was made of what before; nothing where all is made anew.
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
            before: only.map_or_else(MadeFrom::default, |_| MadeFrom::read(host)),
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
            let before = self.host.read(&format!("{PRESSED}/{path}"));
            before.is_ok_and(|before| before == *bytes)
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
) -> Result<Pressing, HostError> {
    let not_yet = wanted.asked.not_yet.iter().map(|word| word.value.clone());
    let mut pressing = Pressing {
        not_yet: not_yet.filter(|_| wanted.only.is_none()).collect(),
        ..Pressing::default()
    };
    let mut files = vec![facts_file("facts.json", proof, &|_| true)];
    let links = papers(proof, progress, wanted, &mut pressing, &mut files);
    if wanted.names(Artefact::Site, None) {
        site_files(proof, progress, &links, pictures, &mut pressing, &mut files);
    } else if wanted.only.is_some() && host.exists(&format!("{PRESSED}/site/index.html")) {
        // Whether a site is still true can only be told from what it would be now.
        let (mut aside, mut now) = (Pressing::default(), Vec::new());
        site_files(proof, progress, &links, pictures, &mut aside, &mut now);
        if wanted.as_before(&now) {
            pressing.pages = aside.pages;
            files.append(&mut now);
        }
    }
    progress.phase("writing", files.len());
    pressing.replaced = host.replace_folder(PRESSED, &files)?;
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
    (
        path.to_owned(),
        facts::render::json(&proof.notebook, &proof.facts, &proof.sources, shown).into_bytes(),
    )
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
    links: &[CardLink],
    ready: &Pictures<'_>,
    pressing: &mut Pressing,
    files: &mut Vec<File>,
) {
    progress.phase("setting pages", proof.notebook.pages.len());
    let version = env!("CARGO_PKG_VERSION");
    let view = views::site_view::site(
        &proof.notebook,
        &proof.facts,
        &proof.findings,
        &proof.sources,
        links,
        version,
    );
    pressing.pages = view.pages.len();
    // The site knows its templates by their path below `templates/`.
    let own: BTreeMap<String, String> = proof
        .templates
        .iter()
        .filter_map(|(path, text)| Some((path.strip_prefix("templates/")?.to_owned(), text.clone())))
        .collect();
    let rendered = Templates::new(&own).and_then(|templates| site::render(&view, &templates));
    let whole = rendered.is_ok();
    match rendered {
        Ok(rendered) => files.extend(
            rendered
                .into_iter()
                .map(|file| (format!("site/{}", file.path), file.bytes.into_owned())),
        ),
        Err(fault) => pressing.findings.push(template_fault::of_site(proof, &fault)),
    }
    let public = views::paths::public_blocks(&proof.notebook);
    let is_public = |id: &str| public.contains(id);
    files.push(facts_file("site/facts.json", proof, &is_public));
    files.push((
        "site/facts.csv".to_owned(),
        facts::render::csv(&proof.notebook, &proof.facts, &proof.sources, &is_public).into_bytes(),
    ));
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
        .filter_map(|(path, bytes)| Some((path.strip_prefix("site/")?, bytes.as_slice())))
        .collect();
    let offline = site::offline::files(&view, &written);
    files.extend(
        offline
            .into_iter()
            .map(|file| (format!("site/{}", file.path), file.bytes.into_owned())),
    );
}

fn picture(proof: &Proof, need: &PictureNeed, ready: Result<Vec<u8>, String>) -> Result<File, Box<Finding>> {
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
