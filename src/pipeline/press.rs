//! The second half of the order: views, cards, pictures and site, and the folder that holds them.

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;

use crate::facts;
use crate::finding::{Finding, Grade, slug};
use crate::host::{Bytes, Host, HostError, Replaced};
use crate::site::{self, SiteFault, SiteFile, Templates};
use crate::source::{FileId, Span};
use crate::views::page::CardLink;
use crate::views::{self, LeftOut, pictures::PictureNeed};

#[cfg(feature = "typst")]
use super::documents::Documents;
use super::{Progress, Proof};
#[cfg(feature = "typst")]
use crate::press::{Known, Press, PressFault};

/// The folder that everything is pressed into.
pub const PRESSED: &str = "pressed";

const VERSION: &str = env!("CARGO_PKG_VERSION");

/// What came of pressing.
#[derive(Debug)]
pub struct Pressing {
    /// What pressing itself found: overflowing cards, missing letters, broken templates, unreadable pictures.
    pub findings: Vec<Finding>,
    /// Cards that were not made, and why.
    pub left_out: Vec<LeftOut>,
    /// Things asked for that this version does not make.
    pub not_yet: Vec<String>,
    /// How many cards were made.
    pub cards: usize,
    /// How many labels were made.
    pub labels: usize,
    /// How many pages the site has.
    pub pages: usize,
    /// How many files of the site were rendered, rather than taken over from an earlier press.
    pub rendered: usize,
    /// How many documents were typeset, rather than taken over.
    pub typeset: usize,
    /// What changed in the folder.
    pub replaced: Replaced,
}

/// A file to be: its path below [`PRESSED`], and its bytes.
pub type File = (String, Bytes);

/// Makes a picture ready for the site, or says why it cannot be shown.
pub type Pictures<'p> = dyn Fn(&PictureNeed) -> Result<Bytes, String> + Sync + 'p;

/// What presses keep for those after them: pages by what stands on them.
#[derive(Debug, Default)]
pub struct Kept {
    /// The notebook's own templates of the site, and all of them compiled.
    templates: Option<(BTreeMap<String, String>, Templates)>,
    /// The cards that the site linked to.
    links: Vec<CardLink>,
    /// What was typeset.
    #[cfg(feature = "typst")]
    documents: Option<Known>,
}

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
    let asked = &proof.notebook.settings.press;
    let mut pressing = Pressing {
        findings: Vec::new(),
        left_out: Vec::new(),
        not_yet: asked.not_yet.iter().map(|word| word.value.clone()).collect(),
        cards: 0,
        labels: 0,
        pages: 0,
        rendered: 0,
        typeset: 0,
        replaced: Replaced::default(),
    };
    let mut files = vec![facts_file("facts.json", proof, &|_| true)];
    documents(host, proof, progress, kept, &mut pressing, &mut files);
    if asked.unsaid || asked.site.is_some() {
        site_files(proof, progress, pictures, kept, &mut pressing, &mut files);
    }
    progress.phase("writing", files.len());
    pressing.replaced = host.replace_folder(PRESSED, &files)?;
    Ok(pressing)
}

/// Some pages of the site before all else is pressed, by what earlier presses kept; none where a template is broken. A page
/// that links to a card is sure only once the cards are set.
pub fn pages_first(proof: &Proof, pages: &BTreeSet<FileId>, kept: &mut Kept) -> Vec<File> {
    let asked = &proof.notebook.settings.press;
    if !asked.unsaid && asked.site.is_none() {
        return Vec::new();
    }
    let links = kept.links.clone();
    let Ok(templates) = templates(proof, kept) else {
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
    pages.into_iter().map(in_site).collect()
}

/// The site's templates, compiled again only where the notebook's own differ.
fn templates<'k>(proof: &Proof, kept: &'k mut Kept) -> Result<&'k Templates, SiteFault> {
    // The site knows its templates by their path below `templates/`.
    let own: BTreeMap<String, String> = proof
        .templates
        .iter()
        .filter_map(|(path, text)| Some((path.strip_prefix("templates/")?.to_owned(), text.clone())))
        .collect();
    let compiled = match kept.templates.take() {
        Some((before, compiled)) if before == own => compiled,
        _ => Templates::new(&own)?,
    };
    Ok(&kept.templates.insert((own, compiled)).1)
}

fn in_site(file: SiteFile) -> File {
    (format!("site/{}", file.path), file.bytes)
}

fn facts_file(path: &str, proof: &Proof, shown: &dyn Fn(&str) -> bool) -> File {
    let text = facts::render::json(&proof.notebook, &proof.facts, &proof.sources, shown);
    (path.to_owned(), text.into_bytes().into())
}

/// Everything on paper.
#[cfg(feature = "typst")]
fn documents(
    host: &dyn Host,
    proof: &Proof,
    progress: &dyn Progress,
    kept: &mut Kept,
    pressing: &mut Pressing,
    files: &mut Vec<File>,
) {
    let asked = &proof.notebook.settings.press;
    kept.links = Vec::new();
    let mut documents = Documents::of(host, kept.documents.take());
    let press = documents.press(proof);
    if asked.unsaid || asked.cards.is_some() {
        kept.links = cards(proof, progress, &press, &mut documents, pressing, files);
    }
    if asked.labels.is_some() {
        labels(proof, progress, &press, &mut documents, pressing, files);
    }
    kept.documents = Some(documents.end(files));
    pressing.typeset = press.count();
    Press::forget_unused();
}

/// Without typst nothing can be set; that is said, not passed over.
#[cfg(not(feature = "typst"))]
fn documents(
    _: &dyn Host,
    proof: &Proof,
    _: &dyn Progress,
    _: &mut Kept,
    pressing: &mut Pressing,
    _: &mut Vec<File>,
) {
    let asked = &proof.notebook.settings.press;
    let all = [
        (asked.unsaid || asked.cards.is_some(), "cards"),
        (asked.labels.is_some(), "labels"),
    ];
    let wanted = all.into_iter().filter(|(wanted, _)| *wanted);
    pressing
        .not_yet
        .extend(wanted.map(|(_, what)| format!("{what} (this trayside was built without typst)")));
}

#[cfg(feature = "typst")]
fn cards(
    proof: &Proof,
    progress: &dyn Progress,
    press: &Press,
    documents: &mut Documents,
    pressing: &mut Pressing,
    files: &mut Vec<File>,
) -> Vec<CardLink> {
    let views = views::cards(&proof.notebook, &proof.facts, &proof.findings);
    let layout = views::layout(&proof.notebook.settings);
    pressing.left_out = views.left_out;
    progress.phase("setting cards", views.cards.len());
    let set: Vec<_> = views
        .cards
        .par_iter()
        .map(|card| (card, press.card(card, &layout)))
        .collect();
    let mut links = Vec::new();
    let mut good = Vec::new();
    let mut faults: Vec<PressFault> = Vec::new();
    for (card, pressed) in set {
        let whole = pressed.faults.is_empty();
        faults.extend(pressed.faults.iter().cloned());
        // A card with a fault does not stay on disk: it would be printed.
        if whole {
            let path = format!("cards/{}.pdf", card.id);
            links.push(CardLink {
                id: card.id.clone(),
                title: card.title.clone(),
                href: format!("../{path}"),
            });
            let red = format!("cards/{}-red.png", card.id);
            documents.add(pressed, path, Some(red), files);
            good.push(card.clone());
        }
    }
    if !good.is_empty() {
        let sheets = press.cards(&good, &layout);
        faults.extend(sheets.faults.iter().cloned());
        if sheets.faults.is_empty() {
            documents.add(sheets, "cards/sheets.pdf".to_owned(), None, files);
        }
    }
    let cuttings = views::cutting::cuttings(&proof.notebook, &proof.facts, &proof.findings);
    let cut: Vec<_> = cuttings
        .par_iter()
        .map(|cutting| (cutting.id.as_str(), press.cutting(cutting)))
        .collect();
    for (id, pressed) in cut {
        faults.extend(pressed.faults.iter().cloned());
        if pressed.faults.is_empty() {
            documents.add(pressed, format!("templates/{id}.pdf"), None, files);
        }
    }
    faults.sort_by_key(|fault| format!("{fault:?}"));
    faults.dedup();
    pressing.cards = good.len();
    pressing
        .findings
        .extend(faults.iter().map(|fault| of_press(proof, fault)));
    links
}

#[cfg(feature = "typst")]
fn labels(
    proof: &Proof,
    progress: &dyn Progress,
    press: &Press,
    documents: &mut Documents,
    pressing: &mut Pressing,
    files: &mut Vec<File>,
) {
    let views = views::labels(&proof.notebook, &proof.facts, &proof.findings);
    let grid = views::label_grid(&proof.notebook.settings);
    pressing.left_out.extend(views.left_out);
    progress.phase("setting labels", views.labels.len());
    let mut labels = views.labels;
    let mut pressed = press.labels(&labels, &grid);
    let at_fault = |fault: &PressFault, id: &str| match fault {
        PressFault::Overflow { card, .. } | PressFault::MissingGlyph { card, .. } => card == id,
        _ => false,
    };
    // A label with a fault does not stay on disk; the others do.
    let faults = pressed.faults.clone();
    let before = labels.len();
    labels.retain(|label| !faults.iter().any(|fault| at_fault(fault, &label.id)));
    if labels.len() < before {
        pressed = press.labels(&labels, &grid);
    }
    if pressed.faults.is_empty() && !labels.is_empty() {
        documents.add(pressed, "labels.pdf".to_owned(), None, files);
        pressing.labels = labels.len();
    }
    pressing
        .findings
        .extend(faults.iter().map(|fault| of_labels(proof, fault)));
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

#[cfg(feature = "typst")]
fn of_press(proof: &Proof, fault: &PressFault) -> Finding {
    use crate::tone::red_light::ENOUGH;
    let settings = Span::new(proof.settings, 0, 0);
    let block = |id: &str| proof.notebook.block(id).map_or(settings, |block| block.head);
    match fault {
        PressFault::Overflow { card, by_mm, what } => Finding::fault(
            slug::CARD_OVERFLOW,
            block(card),
            format!("the card does not hold what is on it: {what} runs {by_mm:.1} mm over"),
        )
        .help("cut words, or choose a larger card under `press: cards: size:`"),
        PressFault::MissingGlyph { card, character } => Finding::fault(
            slug::GLYPH_MISSING,
            block(card),
            format!("no font of the press has the character `{character}`"),
        )
        .help("write it in other letters"),
        PressFault::RedContrast {
            card,
            element,
            contrast,
            others,
        } => Finding::fault(
            slug::RED_CONTRAST,
            block(card),
            format!(
                "under a red lamp `{element}` on the card `{card}` has a contrast of {contrast:.1}, less than {ENOUGH}{}",
                match others {
                    0 => String::new(),
                    others => format!(", and so have {others} more"),
                }
            ),
        )
        .help("set it in black on white: under a red lamp red ink vanishes and grey drowns"),
        PressFault::Template {
            file,
            line,
            column,
            message,
        } => Finding::fault(
            slug::TEMPLATE_BROKEN,
            settings,
            format!("the template {file} has a mistake at line {line}, column {column}: {message}"),
        )
        .help("mend the template, or remove it to use the built-in one"),
        PressFault::Layout { message } => Finding::fault(slug::CARD_TOO_LARGE, settings, message.clone())
            .help("choose sizes under `press: cards:` that fit each other"),
    }
}

/// A fault of the press where labels were set.
#[cfg(feature = "typst")]
fn of_labels(proof: &Proof, fault: &PressFault) -> Finding {
    match fault {
        PressFault::Overflow { card, by_mm, what } => {
            let settings = Span::new(proof.settings, 0, 0);
            let block = proof.notebook.block(card).map_or(settings, |block| block.head);
            Finding::fault(
                slug::LABEL_OVERFLOW,
                block,
                format!("the label does not hold what the bottle has to say: {what} runs {by_mm:.1} mm over"),
            )
            .help(
                "choose a larger label under `press: labels: size:`, or shorten the title and the waste line",
            )
        }
        PressFault::Layout { message } => Finding::fault(
            slug::CARD_TOO_LARGE,
            Span::new(proof.settings, 0, 0),
            message.clone(),
        )
        .help("measure the sheet and write its grid under `press: labels:`"),
        other => of_press(proof, other),
    }
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
    let rendered = templates(proof, kept).and_then(|templates| {
        let rendered = site::render(&view, templates);
        pressing.rendered = templates.turn();
        rendered
    });
    let whole = rendered.is_ok();
    match rendered {
        Ok(rendered) => files.extend(rendered.into_iter().map(in_site)),
        Err(fault) => pressing.findings.push(of_site(proof, &fault)),
    }
    let public = views::paths::public_blocks(&proof.notebook);
    files.push(facts_file("site/facts.json", proof, &|id| public.contains(id)));
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
        .filter_map(|(path, bytes)| Some((path.strip_prefix("site/")?, &bytes[..])))
        .collect();
    let offline = site::offline::files(&view, &written);
    files.extend(offline.into_iter().map(in_site));
}

fn of_site(proof: &Proof, fault: &SiteFault) -> Finding {
    Finding::fault(
        slug::TEMPLATE_BROKEN,
        Span::new(proof.settings, 0, 0),
        format!("a template has a mistake: {fault}"),
    )
    .help("mend the template, or remove it to use the built-in one")
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
