//! The contact sheet: all frames, some hundred to a file; and what a script needs to know of the other files to sift them.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;
use serde::Serialize;

use super::clock::inert;
use super::context::{Context, Digest};
use super::names::Names;
use super::page::Turn;
use super::{SiteFault, SiteFile, Templates};
use crate::views::contact::{Frame, Named};
use crate::views::page::SiteView;

/// How many frames a file holds before the next day's begin a new one.
const FRAMES: usize = 160;

/// The file that tells of the frames in other files.
const COUNTS: &str = "contact-counts.js";

/// Something that frames can be sifted by.
#[derive(Debug, Hash, Serialize)]
struct Sieve<'f> {
    /// Its key in the address and on each frame.
    key: &'static str,
    /// Its label.
    label: &'static str,
    /// What there is, in order of title.
    values: Vec<Choice<'f>>,
}

#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
struct Choice<'f> {
    title: &'f str,
    id: Cow<'f, str>,
}

/// The value of a frame.
type Read = for<'f> fn(&'f Frame) -> Option<Choice<'f>>;

/// Keys of the sieves.
const SIEVES: [(&str, Read); 4] = [
    ("camera", |frame| frame.camera.as_ref().map(choice)),
    ("paper", |frame| frame.paper.as_ref().map(choice)),
    ("developer", |frame| {
        frame.developer.as_ref().map(|bath| choice(&bath.recipe))
    }),
    ("verdict", |frame| {
        Some(Choice {
            title: frame.verdict.title,
            id: Cow::Borrowed(frame.verdict.id),
        })
    }),
];

fn choice(named: &Named) -> Choice<'_> {
    Choice {
        title: &named.title,
        id: Cow::Borrowed(&named.id),
    }
}

/// What a frame is sifted by, by the ids of its choices.
type Sift<'f> = [Cow<'f, str>; SIEVES.len()];

fn sift(frame: &Frame) -> Sift<'_> {
    SIEVES.map(|(_, read)| read(frame).map_or(Cow::Borrowed(""), |choice| choice.id))
}

/// A frame and what it is sifted by.
#[derive(Debug, Serialize)]
struct Set<'f> {
    frame: &'f Frame,
    sift: Sift<'f>,
}

/// The frames of one day.
#[derive(Debug, Serialize)]
struct Day<'f> {
    day: &'f str,
    frames: Vec<Set<'f>>,
}

impl<'f> Day<'f> {
    fn of(frames: &'f [Frame]) -> Self {
        let sets = frames.iter().map(|frame| Set {
            frame,
            sift: sift(frame),
        });
        Self {
            day: frames.first().map_or("", |frame| &frame.day),
            frames: sets.collect(),
        }
    }
}

/// Renders the contact sheet, the newest day first. Where there is no frame there is none.
pub(super) fn render(
    site: &SiteView<'_>,
    names: &Names,
    common: &Context,
    templates: &Templates,
) -> Result<Vec<SiteFile>, SiteFault> {
    let sheets = sheets(&site.frames);
    let paths = names.ending(&names.contact, sheets.len());
    let (say, row) = (&site.words.site.contact, &site.words.block.row);
    let sieves = sieves(&site.frames, [row.camera, row.paper, say.developer, say.verdict]);
    let says = serde_json::json!({
        "sheet": say.sheet, "sheets": row.many_sheets, "here": say.here, "in_part": say.in_part,
    });
    let says = inert(&says.to_string());
    let all = Digest::of(&(common.digest(), site.frame_count, &sieves, &paths));
    let one = |at: usize, days: &Vec<&[Frame]>, path: &String| {
        let html = templates.unless_kept("site/contact.html", Digest::of(&(all, at, days)), || {
            let turn = |at: Option<usize>, title: &'static str| {
                Some(Turn {
                    path: paths.get(at?)?,
                    title,
                })
            };
            let days: Vec<Day<'_>> = days.iter().rev().map(|day| Day::of(day)).collect();
            let mut values = common.values();
            values.insert("here", "contact");
            values.insert("total", &site.frame_count);
            values.insert("sieves", &sieves);
            values.insert("says", &says);
            values.insert("sheet", &(at + 1));
            values.insert("sheets", &paths);
            values.insert("days", &days);
            values.insert("before", &turn(Some(at + 1), site.words.site.list.later_sheets));
            values.insert(
                "after",
                &turn(at.checked_sub(1), site.words.site.list.earlier_sheets),
            );
            values
        })?;
        Ok(SiteFile::text(path.clone(), html))
    };
    let numbered: Vec<_> = sheets.iter().zip(&paths).enumerate().rev().collect();
    let rendered: Vec<Result<SiteFile, SiteFault>> = numbered
        .into_par_iter()
        .map(|(at, (days, path))| one(at, days, path))
        .collect();
    let mut files = rendered.into_iter().collect::<Result<Vec<_>, _>>()?;
    if sheets.len() > 1 {
        files.push(counts(&sheets, &paths));
    }
    Ok(files)
}

/// The frames of each file, day by day.
fn sheets(frames: &[Frame]) -> Vec<Vec<&[Frame]>> {
    let mut sheets: Vec<Vec<&[Frame]>> = Vec::new();
    let mut full = 0;
    let days = frames.chunk_by(|a, b| a.day == b.day);
    // A day with very many frames runs over several files.
    for day in days.flat_map(|day| day.chunks(FRAMES)) {
        if sheets.is_empty() || (full > 0 && full + day.len() > FRAMES) {
            sheets.push(Vec::new());
            full = 0;
        }
        full += day.len();
        if let Some(sheet) = sheets.last_mut() {
            sheet.push(day);
        }
    }
    sheets
}

/// What there is to choose from.
fn sieves<'f>(frames: &'f [Frame], labels: [&'static str; SIEVES.len()]) -> Vec<Sieve<'f>> {
    SIEVES
        .into_par_iter()
        .zip(labels)
        .map(|((key, read), label)| {
            let values: BTreeSet<Choice<'_>> = frames.iter().filter_map(read).collect();
            let values = values.into_iter().collect();
            Sieve { key, label, values }
        })
        .collect()
}

/// For each file how many frames it has of each kind, as `[[path, [[camera, paper, developer, verdict, count], ...]], ...]`.
fn counts(sheets: &[Vec<&[Frame]>], paths: &[String]) -> SiteFile {
    let of_sheets: Vec<_> = sheets
        .par_iter()
        .zip(paths)
        .map(|(days, path)| {
            let mut counts: BTreeMap<Sift<'_>, usize> = BTreeMap::new();
            for frame in days.iter().copied().flatten() {
                *counts.entry(sift(frame)).or_default() += 1;
            }
            serde_json::json!([path, counts.into_iter().collect::<Vec<_>>()])
        })
        .collect();
    let data = super::script::harmless(&serde_json::Value::from(of_sheets).to_string());
    SiteFile::text(COUNTS.to_owned(), format!("traysideContact({data});\n"))
}
