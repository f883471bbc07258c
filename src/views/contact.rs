//! The contact sheet: every negative and positive with what made it, in order of time.

use std::collections::BTreeMap;

use rayon::prelude::*;
use serde::Serialize;

use crate::notebook::{Block, Body, Kind, Role, Session, Verdict, When};
use crate::source::Spanned;
use crate::units::Size;

use super::block_view::Desk;
use super::blocks;
use super::words::Words;

/// Something that a frame names: a camera, a paper, a bath.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct Named {
    /// Its id; what has no block, or a private one, is known by the word that was written.
    pub id: String,
    /// As it is read.
    pub title: String,
    /// Its address from the site's root, where it has one.
    pub href: Option<String>,
}

/// A picture of a frame, or why there is none.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
#[serde(tag = "state", rename_all = "lowercase")]
pub enum Shown {
    /// The scan.
    Scan {
        /// Its address from the site's root.
        src: String,
        /// What it is, in words.
        alt: String,
    },
    /// A scan was named that is not there.
    Lost,
    /// None was made.
    Unscanned,
}

/// The way a sheet lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Lie {
    /// Wider than high.
    Wide,
    /// Higher than wide.
    Tall,
    /// Neither.
    Square,
}

/// A bath that a sheet went through.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct Bath {
    /// The batch as it was mixed.
    pub batch: Named,
    /// The recipe it was mixed by.
    pub recipe: Named,
}

/// How a sheet came out, as one of a few words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
pub struct Sifted {
    /// As addresses have it, in any language.
    pub id: &'static str,
    /// As it is read.
    pub title: &'static str,
}

/// One sheet.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct Frame {
    /// The block.
    pub block: Named,
    /// `exposure` or `print`.
    pub kind: &'static str,
    /// When, as written; empty where it was not noted.
    pub when: String,
    /// The day, such as `2031-05-02`; empty where it was not noted.
    pub day: String,
    /// The picture.
    pub picture: Shown,
    /// How the sheet lay, as far as its camera tells.
    pub lie: Lie,
    /// The negative that a print was made from.
    pub negative: Option<Named>,
    /// The camera; of a print that of its negative.
    pub camera: Option<Named>,
    /// The paper.
    pub paper: Option<Named>,
    /// The light, or the lamp of a print, worded.
    pub light: Option<String>,
    /// The time given, worded.
    pub time: Option<String>,
    /// How it came out, worded; none where that was not noted.
    pub result: Option<String>,
    /// The same in one of a few words, to sift by.
    pub verdict: Sifted,
    /// The session it was developed in.
    pub session: Option<Named>,
    /// The developer of that session.
    pub developer: Option<Bath>,
}

/// Every frame of the public pages: in order of time, a print after its negative, those without a date last.
pub(super) fn frames(desk: &Desk<'_>) -> Vec<Frame> {
    let mut negatives = Vec::new();
    let mut prints: BTreeMap<&str, Vec<&Block>> = BTreeMap::new();
    let sheets = desk
        .notebook
        .blocks
        .iter()
        .filter(|block| desk.places.site_path(block.page).is_some());
    for block in sheets {
        match &block.body {
            Body::Exposure(_) => negatives.push(block),
            Body::Print(print) => match negative_of(desk, print.of.get()) {
                Some(negative) => prints.entry(&negative.id).or_default().push(block),
                None => negatives.push(block),
            },
            _ => {}
        }
    }
    negatives.sort_by_cached_key(|block| moment(block));
    // Each with the negative that it lies beside, if it is a print.
    let mut laid: Vec<(&Block, Option<&Block>)> = Vec::new();
    for negative in negatives {
        laid.push((negative, None));
        if desk.notebook.leads_to(negative)
            && let Some(mut prints) = prints.remove(negative.id.as_str())
        {
            prints.sort_by_cached_key(|block| moment(block));
            laid.extend(prints.into_iter().map(|print| (print, Some(negative))));
        }
    }
    laid.into_par_iter()
        .map(|(block, negative)| Frame {
            day: day(negative.unwrap_or(block)),
            ..frame(desk, block)
        })
        .collect()
}

/// The day of a sheet, such as `2031-05-02`; empty where it was not noted.
fn day(block: &Block) -> String {
    when(block).map_or_else(String::new, |when| when.at.strftime("%Y-%m-%d").to_string())
}

/// How many frames there are.
pub(super) fn count(desk: &Desk<'_>) -> usize {
    let of_kind = |kind| desk.notebook.of_kind(kind);
    let sheets = of_kind(Kind::Exposure).chain(of_kind(Kind::Print));
    sheets
        .filter(|block| desk.places.site_path(block.page).is_some())
        .count()
}

fn negative_of<'d>(desk: &Desk<'d>, of: Option<&Spanned<String>>) -> Option<&'d Block> {
    desk.places
        .block(&of?.value)
        .filter(|block| block.kind() == Kind::Exposure)
}

fn when(block: &Block) -> Option<&When> {
    let when = match &block.body {
        Body::Exposure(exposure) => exposure.when.get(),
        Body::Print(print) => print.when.get(),
        _ => None,
    };
    when.map(|when| &when.value)
}

/// What frames are put in order by: what has no date comes last, and in reading order.
fn moment(block: &Block) -> (bool, Option<jiff::Timestamp>) {
    let when = when(block);
    (when.is_none(), when.map(When::instant))
}

fn frame(desk: &Desk<'_>, block: &Block) -> Frame {
    let when = when(block);
    let session = desk
        .uses
        .of_block(&block.id)
        .iter()
        .filter(|_| desk.notebook.leads_to(block))
        .find_map(|user| match &user.body {
            Body::Session(session) => Some((*user, session)),
            _ => None,
        });
    let mut frame = Frame {
        block: Named {
            id: desk.places.anchor(block),
            title: block.name().to_owned(),
            href: desk.places.block_from_root(block),
        },
        kind: block.kind().word(),
        when: when.map_or_else(String::new, |when| when.written.clone()),
        day: day(block),
        picture: Shown::Unscanned,
        lie: Lie::Wide,
        negative: None,
        camera: None,
        paper: None,
        light: None,
        time: None,
        result: None,
        verdict: Sifted {
            id: "not-noted",
            title: desk.words.block.value.not_noted,
        },
        session: session.map(|(block, _)| of_block(desk, block)),
        developer: session.and_then(|(_, session)| developer(desk, session)),
    };
    match &block.body {
        Body::Exposure(exposure) => {
            frame.camera = reference(desk, exposure.camera.get());
            frame.paper = reference(desk, exposure.paper.get());
            frame.light = exposure
                .light
                .get()
                .map(|light| blocks::light_text(&light.value, desk.words, desk.style));
            frame.time = blocks::time_given(desk, block, exposure);
            frame.note(desk, exposure.result.get());
            frame.lie = lie(desk, exposure.camera.get());
            let file = exposure.scan.get().and_then(|scan| scan.file.get());
            frame.picture = shown(desk, block, file);
        }
        Body::Print(print) => {
            let negative = negative_of(desk, print.of.get());
            let camera = negative.and_then(|negative| match &negative.body {
                Body::Exposure(exposure) => exposure.camera.get(),
                _ => None,
            });
            frame.negative = reference(desk, print.of.get());
            frame.camera = reference(desk, camera);
            frame.paper = reference(desk, print.paper.get());
            frame.light = print.lamp.get().map(|lamp| lamp.value.trim().to_owned());
            frame.time = print.time.get().map(|time| time.amount.show(desk.style));
            frame.note(desk, print.result.get());
            frame.lie = lie(desk, camera);
            let file = print.scan.get().and_then(|scan| scan.file.get());
            frame.picture = shown(desk, block, file);
        }
        _ => {}
    }
    frame
}

impl Frame {
    fn note(&mut self, desk: &Desk<'_>, result: Option<&Spanned<Verdict>>) {
        let Some(result) = result else { return };
        let (sift, say) = (&desk.words.site.contact, &desk.words.block.value);
        self.result = Some(blocks::verdict(&result.value, desk.words, desk.style));
        let (id, title) = match &result.value {
            Verdict::Right => ("right", say.right),
            verdict if verdict.needs_stops().is_some_and(|stops| stops < 0.0) => {
                ("needs-less", sift.needs_less)
            }
            Verdict::Needs(_) => ("needs-more", sift.needs_more),
            Verdict::RightAtStep(_) => ("right-at-a-step", sift.right_at_a_step),
            Verdict::Blank => ("blank", say.blank),
            Verdict::Black => ("black", say.black),
            Verdict::Leak => ("light-leak", say.leak),
        };
        self.verdict = Sifted { id, title };
    }
}

fn shown(desk: &Desk<'_>, block: &Block, file: Option<&Spanned<String>>) -> Shown {
    let alt = Words::fill(desk.words.block.value.scan_of, block.name());
    match (desk.picture(block, file, &alt), file) {
        (Some(picture), _) => Shown::Scan {
            src: picture.src,
            alt: picture.alt,
        },
        (None, Some(_)) => Shown::Lost,
        (None, None) => Shown::Unscanned,
    }
}

fn lie(desk: &Desk<'_>, camera: Option<&Spanned<String>>) -> Lie {
    let format: Option<&Size> = camera
        .and_then(|camera| desk.places.block(&camera.value))
        .and_then(|block| match &block.body {
            Body::Camera(camera) => camera.format.get(),
            _ => None,
        })
        .map(|format| &format.value);
    match format {
        Some(size) if size.height > size.width => Lie::Tall,
        Some(size) if size.height < size.width => Lie::Wide,
        Some(_) => Lie::Square,
        None => Lie::Wide,
    }
}

fn developer(desk: &Desk<'_>, session: &Session) -> Option<Bath> {
    let (recipe, batch) = session.baths.iter().find(|(recipe, _)| {
        desk.places
            .block(&recipe.value)
            .is_some_and(|block| match &block.body {
                Body::Recipe(recipe) => recipe.role() == Some(Role::Developer),
                _ => false,
            })
    })?;
    Some(Bath {
        batch: named(desk, &batch.value),
        recipe: named(desk, &recipe.value),
    })
}

fn reference(desk: &Desk<'_>, id: Option<&Spanned<String>>) -> Option<Named> {
    id.map(|id| named(desk, &id.value))
}

/// A block by its id. One on a private page is named as it was written.
fn named(desk: &Desk<'_>, id: &str) -> Named {
    desk.places.block(id).map_or_else(
        || Named {
            id: id.to_owned(),
            title: id.to_owned(),
            href: None,
        },
        |block| of_block(desk, block),
    )
}

fn of_block(desk: &Desk<'_>, block: &Block) -> Named {
    Named {
        id: block.id.clone(),
        title: block.name().to_owned(),
        href: desk.places.block_from_root(block),
    }
}
