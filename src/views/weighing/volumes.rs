//! The weighing sheet of a recipe for several volumes side by side: what lies beside the scale in a class.

use serde::Serialize;

use crate::facts::{Bath, Facts};
use crate::finding::Finding;
use crate::notebook::{Block, Notebook};

use super::{Heads, Plan, Source, Time, plan};
use crate::views::amounts::Weighing;
use crate::views::card::{Caution, Line, Step};
use crate::views::cards::{LeftOut, blocks, left_out};
use crate::views::steps::Wording;
use crate::views::words::{Words, words_of};

/// Multiples of what the recipe makes where the notebook names no volumes: half, as written, double.
const MULTIPLES: [f64; 3] = [0.5, 1.0, 2.0];

/// A weighing sheet for several volumes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct VolumeSheet {
    /// The recipe's id, also the stem of the file.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What the bath is for.
    pub role: String,
    /// The language of the fixed words, as an ISO 639-1 code.
    pub language: String,
    /// Where no session has used the recipe with a good result.
    pub untested: Option<String>,
    /// The finished volumes, as they are read.
    pub volumes: Vec<String>,
    /// What to measure out, part by part, in order of mixing.
    pub groups: Vec<VolumeGroup>,
    /// How far the scale puts materials out of proportion, what the water does, and the vessel: a line each, with its volume.
    pub water: Vec<Line>,
    /// What to do, in order; a figure that differs is given for each volume.
    pub steps: Vec<Step>,
    /// How long it takes, with its volume where that matters.
    pub times: Vec<Line>,
    /// What the packets hold, and for which volumes they do not suffice.
    pub shelf: Vec<VolumeStock>,
    /// Safety lines, hazards first.
    pub cautions: Vec<Caution>,
    /// What to write on the jug.
    pub write_on: Vec<String>,
    /// Notebook, recipe, tool and version.
    pub stamp: String,
    /// The heads of its parts.
    #[serde(skip)]
    pub heads: Heads,
}

/// What goes into one part, or into the whole.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct VolumeGroup {
    /// The part's name; none where the bath has one part.
    pub name: Option<String>,
    /// In order of mixing.
    pub rows: Vec<VolumeRow>,
}

/// One thing to measure out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct VolumeRow {
    /// What, as its packet is called.
    pub material: String,
    /// How much, one a volume.
    pub amounts: Vec<String>,
    /// How far the scale is off, one a volume; empty where it is not worth a word.
    pub off: Vec<String>,
    /// What has to be known about it, with the volume of which it is true where it is not true of all.
    pub notes: Vec<Line>,
}

/// A packet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct VolumeStock {
    /// The packet, or the material where there is none.
    pub material: String,
    /// What is in it; empty where that is not known.
    pub there: String,
    /// For which volumes it does not suffice, worded; empty where it does.
    pub short: String,
}

/// The weighing sheets of a notebook.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct VolumeSheets {
    /// One a recipe, in reading order.
    pub sheets: Vec<VolumeSheet>,
    /// Recipes without one, in reading order.
    pub left_out: Vec<LeftOut>,
}

/// The weighing sheets of every recipe that may be followed.
pub fn volume_sheets(notebook: &Notebook, facts: &Facts, findings: &[Finding]) -> VolumeSheets {
    let left = left_out(notebook, facts, findings);
    let source = Source {
        notebook,
        facts,
        findings,
    };
    let mut made = VolumeSheets::default();
    for block in blocks(notebook) {
        let Some(bath) = facts.baths.get(&block.id) else {
            continue;
        };
        let sheet = match left.get(block.id.as_str()) {
            Some(why) => Err(why.clone()),
            None => {
                volume_sheet(source, block, bath).ok_or_else(|| "it does not say what it makes".to_owned())
            }
        };
        match sheet {
            Ok(sheet) => made.sheets.push(sheet),
            Err(why) => made.left_out.push(LeftOut {
                id: block.id.clone(),
                title: block.name().to_owned(),
                what: "weighing sheet",
                why,
            }),
        }
    }
    made
}

fn volume_sheet(source: Source<'_>, block: &Block, bath: &Bath) -> Option<VolumeSheet> {
    let notebook = source.notebook;
    let makes = bath.litres()?.best;
    let asked = notebook.settings.press.sheets.as_ref();
    let own = asked.map_or(&[][..], |sheets| &sheets.volumes);
    let multiples: Vec<f64> = if own.is_empty() {
        MULTIPLES.to_vec()
    } else {
        own.iter().map(|volume| volume.value.range.best / makes).collect()
    };
    let plans = multiples
        .iter()
        .map(|multiple| plan(source, block, bath, multiple * makes, String::new()))
        .collect::<Option<Vec<Plan>>>()?;
    // What is said of one volume alone is said of the recipe's own, or of the middle one.
    let usual = multiples
        .iter()
        .position(|multiple| *multiple == 1.0)
        .unwrap_or(multiples.len() / 2);
    let words = words_of(notebook);
    let weighing = Weighing::at(bath, notebook, words, multiples);
    let wording = Wording {
        named: true,
        bath,
        weighing: &weighing,
        words,
        style: notebook.settings.style,
    };
    let first = &plans.first()?.sheet;
    Some(VolumeSheet {
        id: first.id.clone(),
        title: first.title.clone(),
        role: first.role.clone(),
        language: first.language.clone(),
        untested: first.untested.clone(),
        volumes: plans.iter().map(|plan| plan.sheet.volume.clone()).collect(),
        groups: groups(&plans, usual, words),
        water: water(&plans),
        steps: wording.steps(),
        times: times(&plans),
        shelf: shelf(&plans),
        cautions: first.cautions.clone(),
        write_on: first.write_on.clone(),
        stamp: first.stamp.clone(),
        heads: first.heads.clone(),
    })
}

/// The rows of all volumes, which have the same materials in the same order.
fn groups(plans: &[Plan], usual: usize, words: &Words) -> Vec<VolumeGroup> {
    let Some(own) = plans.get(usual).map(|plan| &plan.sheet) else {
        return Vec::new();
    };
    let group = |at: usize, group: &super::Group| VolumeGroup {
        name: group.name.clone(),
        rows: group
            .rows
            .iter()
            .enumerate()
            .map(|(row, own_row)| {
                let each: Vec<&super::Row> = plans
                    .iter()
                    .filter_map(|plan| plan.sheet.groups.get(at)?.rows.get(row))
                    .collect();
                let notes = own_row.notes.iter().map(|note| Line {
                    label: if each.iter().all(|other| other.notes.contains(note)) {
                        String::new()
                    } else {
                        Words::fill(words.sheet.notes, &own.volume)
                    },
                    text: note.clone(),
                });
                VolumeRow {
                    material: own_row.material.clone(),
                    amounts: each.iter().map(|row| row.amount.clone()).collect(),
                    off: each.iter().map(|row| row.off.clone()).collect(),
                    notes: joined(notes.collect(), "; "),
                }
            })
            .collect(),
    };
    own.groups
        .iter()
        .enumerate()
        .map(|(at, own)| group(at, own))
        .collect()
}

/// Lines with the same label as one, in the order in which the labels first stand.
fn joined(lines: Vec<Line>, with: &str) -> Vec<Line> {
    let mut joined: Vec<Line> = Vec::new();
    for line in lines {
        match joined.iter_mut().find(|known| known.label == line.label) {
            Some(known) => {
                known.text.push_str(with);
                known.text.push_str(&line.text);
            }
            None => joined.push(line),
        }
    }
    joined
}

/// What the rounding does, the pH that is to be expected, the water and the vessel: what is true of every volume first.
fn water(plans: &[Plan]) -> Vec<Line> {
    let of = |plan: &Plan| -> Vec<String> {
        let sheet = &plan.sheet;
        let remarks = sheet.rounding.iter().chain(&sheet.acidity);
        remarks.chain(&sheet.water).cloned().collect()
    };
    let mut lines: Vec<Line> = Vec::new();
    for plan in plans {
        for text in of(plan) {
            let everywhere = plans.iter().all(|other| of(other).contains(&text));
            let label = if everywhere {
                String::new()
            } else {
                plan.sheet.volume.clone()
            };
            let line = Line { label, text };
            if !lines.contains(&line) {
                lines.push(line);
            }
        }
    }
    lines.sort_by_key(|line| !line.label.is_empty());
    joined(lines, " ")
}

/// Times that follow the volume, one volume after the other.
fn times(plans: &[Plan]) -> Vec<Line> {
    let mut labels: Vec<&Time> = Vec::new();
    for time in plans.iter().flat_map(|plan| &plan.times) {
        if labels.iter().all(|known| known.label != time.label) {
            labels.push(time);
        }
    }
    let lines = labels.into_iter().map(|time| {
        let shown: Vec<(&Plan, &Time)> = plans
            .iter()
            .filter_map(|plan| Some((plan, plan.times.iter().find(|other| other.label == time.label)?)))
            .collect();
        let same = shown.iter().all(|(_, other)| other.shown == time.shown);
        let text = if same {
            time.shown.clone()
        } else {
            let each = shown
                .iter()
                .map(|(plan, time)| format!("{}: {}", plan.sheet.volume, time.shown));
            each.collect::<Vec<_>>().join(", ")
        };
        Line {
            label: time.label.clone(),
            text: Words::fill(time.template, &text),
        }
    });
    lines.collect()
}

fn shelf(plans: &[Plan]) -> Vec<VolumeStock> {
    let Some(first) = plans.first() else {
        return Vec::new();
    };
    let stock = |at: usize, own: &super::Stock| {
        let each = plans
            .iter()
            .filter_map(|plan| Some((plan, plan.sheet.shelf.get(at)?.short.as_ref()?)));
        let short: Vec<(&Plan, &String)> = each.collect();
        let text = match short.as_slice() {
            [(_, one), ..] if short.len() == plans.len() && short.iter().all(|(_, text)| text == one) => {
                (*one).clone()
            }
            some => {
                let told = some
                    .iter()
                    .map(|(plan, text)| format!("{}: {text}", plan.sheet.volume));
                told.collect::<Vec<_>>().join("; ")
            }
        };
        VolumeStock {
            material: own.material.clone(),
            there: own.there.clone(),
            short: text,
        }
    };
    let shelf = first.sheet.shelf.iter().enumerate();
    shelf.map(|(at, own)| stock(at, own)).collect()
}

/// How large a notebook wants its weighing sheets, mm: A5 (ISO 216) where it says nothing.
pub fn volume_sheet_size(notebook: &Notebook) -> (f64, f64) {
    let asked = notebook.settings.press.sheets.as_ref();
    let size = asked.and_then(|sheets| sheets.size.get());
    size.map_or((148.0, 210.0), |size| {
        (size.value.width.millimetres(), size.value.height.millimetres())
    })
}
