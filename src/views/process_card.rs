//! The card of a line: what a sheet goes through, for how long, under which light.

use crate::facts::{Bath, stated_time};
use crate::notebook::{Block, Process, ProcessStep, StepKind};
use crate::units::{Digits, Dimension, Range, show};

use super::card::{Card, CardKind, Caution, Line, Step, Tray};
use super::cautions::{cautions, found, plain};
use super::common::Common;
use super::words::{Words, capital};

/// The card of a process.
pub(super) fn card(common: &Common<'_>, block: &Block, process: &Process) -> Card {
    let words = common.words;
    Card {
        role: base(words, process),
        steps: process.steps.iter().map(|step| row(common, step)).collect(),
        lines: lines(common, block, process),
        boxes: vec![words.card.started_at.to_owned()],
        cautions: line_cautions(common, block, &process.steps),
        ..common.blank(block, CardKind::Process)
    }
}

/// The place in this line of a bath: the trays counted from the left, each once.
pub(super) fn tray_of(process: &Process, bath: &str) -> Option<Tray> {
    let places = places_in_line(process);
    let each = process.steps.iter().zip(&places);
    let number = each
        .filter(|(step, _)| step.bath.get().is_some_and(|used| used.value == bath))
        .find_map(|(_, place)| *place)?;
    Some(Tray {
        number,
        of: places.iter().flatten().copied().max().unwrap_or(number),
    })
}

/// For each step the number of its tray, from 1; none for drying. A tray that serves two steps keeps its number.
pub(super) fn places_in_line(process: &Process) -> Vec<Option<usize>> {
    let mut names: Vec<String> = Vec::new();
    let each = process.steps.iter().enumerate();
    each.map(|(at, step)| {
        if step.kind == StepKind::Dry {
            return None;
        }
        // A tray without a name is one of its own.
        let name = step
            .tray
            .get()
            .map_or_else(|| format!("#{at}"), |tray| tray.value.clone());
        let known = names.iter().position(|known| *known == name);
        if known.is_none() {
            names.push(name);
        }
        Some(known.map_or(names.len(), |known| known + 1))
    })
    .collect()
}

/// What paper a line is for; empty where it does not say.
pub(super) fn base(words: &Words, process: &Process) -> String {
    process.base().map_or_else(String::new, |base| {
        Words::fill(words.card.paper, (words.base)(base))
    })
}

pub(super) fn bath_of<'n>(common: &Common<'n>, step: &ProcessStep) -> Option<&'n Bath> {
    common.facts.baths.get(&step.bath.get()?.value)
}

/// A step of the line: what, how long, how warm, under which light.
pub(super) fn row(common: &Common<'_>, step: &ProcessStep) -> Step {
    let (words, style) = (common.words, common.style);
    let bath = bath_of(common, step);
    let role = bath.and_then(Bath::role).map(|role| (words.role)(role));
    let kind = role.unwrap_or_else(|| (words.step_kind)(step.kind));
    // A tray is mostly named for what is in it; then its name is enough.
    let tray = step.tray.get().map(|tray| tray.value.as_str());
    let what = tray.filter(|tray| names(tray, kind)).unwrap_or(kind);
    let usage = bath.map(|bath| &bath.recipe.usage);
    let time = if step.ends_by_eye() {
        words.card.by_inspection.to_owned()
    } else {
        stated_time(step, bath).map_or_else(String::new, |time| time.show(style))
    };
    let warm = usage.and_then(|usage| usage.temperature.get());
    let warm = step.temperature.get().or(warm);
    let title = bath
        .and_then(|bath| common.notebook.block(&bath.id))
        .map(Block::name);
    let mut note: Vec<String> = Vec::new();
    note.extend(step.lit().map(|light| (words.light)(light).to_owned()));
    note.extend(
        step.changes
            .get()
            .map(|changes| Words::fill(words.card.changes, &changes.value.to_string())),
    );
    note.extend(
        step.within
            .get()
            .map(|within| Words::fill(words.card.within, &within.show(style))),
    );
    note.extend(
        tray.filter(|tray| *tray != what)
            .map(|tray| Words::fill(words.card.tray, tray)),
    );
    Step {
        part: title.map(str::to_owned).or_else(|| step.with.clone()),
        what: what.to_owned(),
        figure: time,
        second: warm.map_or_else(String::new, |warm| warm.show(style)),
        note: note.join(", "),
    }
}

/// Whether a tray's name says its kind: `fix one` is a fixer, `aid` a wash aid.
pub(super) fn names(tray: &str, kind: &str) -> bool {
    let (tray, kind) = (tray.to_lowercase(), kind.to_lowercase());
    let stem: String = kind.chars().take(3).collect();
    tray.split_whitespace().any(|word| word.starts_with(&stem))
        || kind.split_whitespace().any(|word| word == tray)
}

/// How long sheets drip between trays, and how long they lie under the red lamp.
fn lines(common: &Common<'_>, block: &Block, process: &Process) -> Vec<Line> {
    let words = common.words;
    let mut lines = Vec::new();
    let drains = process
        .steps
        .iter()
        .filter_map(|step| step.drain.get())
        .map(|drain| drain.range);
    if let Some(all) = drains.reduce(Range::hull) {
        let text = show(all, Dimension::Time, Digits::Significant(2), common.style);
        lines.push(Line::new(words.card.drain, text));
    }
    let lamp = common
        .facts
        .get(&block.id, "under-lamp")
        .filter(|fact| fact.range().is_some());
    lines.extend(lamp.map(|fact| Line::new(words.card.under_lamp, fact.text(common.style))));
    lines
}

/// Hazards found in the line itself, then what holds while sheets go through its baths, each once. What is true of one
/// bath says of which: an acid has no place in a fixer, and stands two trays before it.
pub(super) fn line_cautions(common: &Common<'_>, block: &Block, steps: &[ProcessStep]) -> Vec<Caution> {
    let (words, say) = (common.words, &common.words.say);
    let mut lines = found(block, common.findings, words);
    let of_one = [say.acid_into_hypo, say.acid_into_sulphite];
    let of_all = [say.eyes, say.minors, say.silver];
    for bath in steps.iter().filter_map(|step| bath_of(common, step)) {
        let here = common.notebook.block(&bath.id);
        let found = here.map_or_else(Vec::new, |here| found(here, common.findings, words));
        for line in cautions(bath, common.notebook, common.findings) {
            let text = if of_all.contains(&line.text.as_str()) {
                line.text
            } else if of_one.contains(&line.text.as_str()) || found.contains(&line) {
                let role = bath.role().map_or(bath.id.as_str(), |role| (words.role)(role));
                capital(&format!("{role}: {}", words.behind_colon(&line.text)))
            } else {
                continue;
            };
            if lines.iter().all(|known| known.text != text) {
                lines.push(Caution { text, ..line });
            }
        }
    }
    lines.push(plain(say.dry_hands));
    lines.sort_by_key(|line| !line.hazard);
    lines
}
