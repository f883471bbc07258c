//! The contact sheet: all frames, some hundred to a file; and what a script needs to know of the other files to sift them.

use std::collections::BTreeMap;

use serde::Serialize;

use super::context::Context;
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
#[derive(Debug, Serialize)]
struct Sieve {
    /// Its key in the address and on each frame.
    key: &'static str,
    /// Its label.
    label: &'static str,
    /// What there is, in order of title.
    values: Vec<Choice>,
}

#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
struct Choice {
    title: String,
    id: String,
}

/// Keys and labels of the sieves, and the value of a frame.
type Read = fn(&Frame) -> Option<Choice>;

const SIEVES: [(&str, &str, Read); 4] = [
    ("camera", "camera", |frame| frame.camera.as_ref().map(choice)),
    ("paper", "paper", |frame| frame.paper.as_ref().map(choice)),
    ("developer", "developer", |frame| {
        frame.developer.as_ref().map(|bath| choice(&bath.recipe))
    }),
    ("verdict", "how it came out", |frame| {
        Some(Choice {
            title: frame.verdict.to_owned(),
            id: frame.verdict.replace(' ', "-"),
        })
    }),
];

fn choice(named: &Named) -> Choice {
    Choice {
        title: named.title.clone(),
        id: named.id.clone(),
    }
}

/// A frame and what it is sifted by.
#[derive(Debug, Serialize)]
struct Set<'s> {
    frame: &'s Frame,
    sift: [String; SIEVES.len()],
}

/// The frames of one day.
#[derive(Debug, Serialize)]
struct Day<'s> {
    day: &'s str,
    frames: Vec<Set<'s>>,
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
    let sieves = sieves(&site.frames);
    let mut files = Vec::new();
    for (at, days) in sheets.iter().enumerate().rev() {
        let turn = |at: Option<usize>, title: &'static str| {
            Some(Turn {
                path: paths.get(at?)?,
                title,
            })
        };
        let mut context = common.clone();
        context.insert("here", "contact");
        context.insert("total", &site.frames.len());
        context.insert("sieves", &sieves);
        context.insert("sheet", &(at + 1));
        context.insert("sheets", &paths);
        context.insert("days", &days.iter().rev().collect::<Vec<_>>());
        context.insert("before", &turn(Some(at + 1), "later sheets"));
        context.insert("after", &turn(at.checked_sub(1), "earlier sheets"));
        if let Some(path) = paths.get(at) {
            let html = templates.render("site/contact.html", &context)?;
            files.push(SiteFile::text(path.clone(), html));
        }
    }
    if sheets.len() > 1 {
        files.push(counts(&sheets, &paths));
    }
    Ok(files)
}

fn sheets(frames: &[Frame]) -> Vec<Vec<Day<'_>>> {
    let mut sheets: Vec<Vec<Day<'_>>> = Vec::new();
    let mut full = 0;
    for day in frames.chunk_by(|a, b| a.day == b.day) {
        if sheets.is_empty() || (full > 0 && full + day.len() > FRAMES) {
            sheets.push(Vec::new());
            full = 0;
        }
        full += day.len();
        let frames = day.iter().map(|frame| Set {
            frame,
            sift: SIEVES.map(|(_, _, read)| read(frame).map_or_else(String::new, |choice| choice.id)),
        });
        if let Some(sheet) = sheets.last_mut() {
            sheet.push(Day {
                day: day.first().map_or("", |frame| &frame.day),
                frames: frames.collect(),
            });
        }
    }
    sheets
}

/// What there is to choose from.
fn sieves(frames: &[Frame]) -> Vec<Sieve> {
    SIEVES
        .into_iter()
        .map(|(key, label, read)| {
            let mut values: Vec<Choice> = frames.iter().filter_map(read).collect();
            values.sort_unstable();
            values.dedup();
            Sieve { key, label, values }
        })
        .collect()
}

/// For each file how many frames it has of each kind, as `[[path, [[camera, paper, developer, verdict, count], ...]], ...]`.
fn counts(sheets: &[Vec<Day<'_>>], paths: &[String]) -> SiteFile {
    let of_sheets: Vec<_> = sheets
        .iter()
        .zip(paths)
        .map(|(days, path)| {
            let mut counts: BTreeMap<&[String; SIEVES.len()], usize> = BTreeMap::new();
            for set in days.iter().flat_map(|day| &day.frames) {
                *counts.entry(&set.sift).or_default() += 1;
            }
            serde_json::json!([path, counts.into_iter().collect::<Vec<_>>()])
        })
        .collect();
    let data = super::script::harmless(&serde_json::Value::from(of_sheets).to_string());
    SiteFile::text(COUNTS.to_owned(), format!("traysideContact({data});\n"))
}
