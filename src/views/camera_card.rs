//! The card of a camera: how long for which light, on her own papers, in times that can be counted beside the tripod.

use std::collections::BTreeMap;

use crate::facts::countable;
use crate::notebook::{Block, Body, Camera, Evidence, Light};
use crate::optics::SceneLight;
use crate::units::scalar::Stops;
use crate::units::{Digits, Dimension, Range, Style, show};

use super::card::{Card, CardKind, Figure, Line, Times, TimesRow};
use super::cards::own_fault;
use super::common::Common;
use super::drawing::of_camera;
use super::exposure_table::{Cell, ExposureTable, Question, TimeCell, exposure_table};
use super::words::Words;

/// Papers on one card; more are a table to be printed on paper.
const PAPERS: usize = 3;
/// Longer than this nobody waits beside a camera, s.
const WAIT: f64 = 12.0 * 3600.0;

/// From these times on, s, a card counts in such steps, s: longer ones than everywhere else, to be read off a watch. None makes
/// more than 0.02 stop. The choice is common practice, no source.
const LONG: [(f64, f64); 2] = [(14_400.0, 300.0), (1800.0, 60.0)];

/// The card of a camera; nothing where no time can be computed for any paper.
pub(super) fn card(common: &Common<'_>, block: &Block, camera: &Camera) -> Option<Card> {
    let words = &common.words.kinds;
    let papers = papers(common, &block.id);
    let lights: Vec<(String, Light)> = SceneLight::ALL
        .into_iter()
        .map(|scene| ((common.words.scene)(scene).to_owned(), Light::Scene(scene)))
        .collect();
    let question = Question {
        camera: &block.id,
        papers: &papers,
        lights: &lights,
        at: None,
    };
    let table = exposure_table(&question, common.notebook, common.facts).ok()?;
    let times = times(&table, words.light, common.style);
    if times.rows.is_empty() {
        return None;
    }
    let mut beforehand = vec![Line::new(words.times_from, sureness(common, &table))];
    if let Some(note) = &block.note {
        beforehand.push(Line::new(words.note, note.value.trim()));
    }
    let format = camera
        .format
        .get()
        .map(|format| Words::fill(words.camera, &format.value.written));
    let guessed = camera
        .pinhole
        .get()
        .is_some_and(|hole| hole.evidence == Some(Evidence::Guessed));
    let facts: Vec<_> = common.facts.of_block(&block.id).iter().collect();
    Some(Card {
        role: format.unwrap_or_default(),
        key_figures: vec![Figure {
            label: words.f_number.to_owned(),
            value: table.f_number,
        }],
        times: Some(times),
        drawing: of_camera(block, camera, &facts, common.style),
        lines: vec![Line::new(words.shutter, words.shutter_how)],
        beforehand,
        untested: guessed.then(|| words.hole_guessed.to_owned()),
        ..common.blank(block, CardKind::Camera)
    })
}

/// Her papers: those that went into this camera, the most used first; all of the notebook's where none did yet.
fn papers<'n>(common: &Common<'n>, camera: &str) -> Vec<&'n str> {
    let mut used: BTreeMap<&str, usize> = BTreeMap::new();
    for block in &common.notebook.blocks {
        if let Body::Exposure(exposure) = &block.body
            && exposure.camera.get().is_some_and(|id| id.value == camera)
            && let Some(paper) = exposure.paper.get()
        {
            *used.entry(paper.value.as_str()).or_default() += 1;
        }
    }
    let mut papers: Vec<&Block> = common
        .notebook
        .blocks
        .iter()
        .filter(|block| matches!(block.body, Body::Paper(_)) && common.notebook.leads_to(block))
        .filter(|block| own_fault(block, common.findings).is_none())
        .filter(|block| used.is_empty() || used.contains_key(block.id.as_str()))
        .collect();
    papers.sort_by_key(|block| std::cmp::Reverse(used.get(block.id.as_str()).copied().unwrap_or(0)));
    papers
        .iter()
        .take(PAPERS)
        .map(|block| block.id.as_str())
        .collect()
}

/// The lights that can be waited for.
fn times(table: &ExposureTable, head: &str, style: Style) -> Times {
    let rows = table.rows.iter().filter_map(|row| {
        let shown = |cell: &Cell| match cell {
            Cell::Time(time) if time.seconds <= WAIT => Some(show(
                Range::exact(counted(exact(time))),
                Dimension::Time,
                Digits::Significant(3),
                style,
            )),
            _ => None,
        };
        let times: Vec<Option<String>> = row.times.iter().map(shown).collect();
        times.iter().any(Option::is_some).then(|| TimesRow {
            name: row.light.clone(),
            value: row.middle.map_or_else(String::new, |middle| {
                // The middle of a scene is a whole number or a half.
                show(
                    Range::exact(libm::round(2.0 * middle) / 2.0),
                    Dimension::Number,
                    Digits::Significant(3),
                    style,
                )
            }),
            times: times
                .into_iter()
                .map(|time| time.unwrap_or_else(|| "–".to_owned()))
                .collect(),
        })
    });
    Times {
        head: head.to_owned(),
        value_head: "EV".to_owned(),
        columns: table.papers.iter().map(|paper| paper.name.clone()).collect(),
        rows: rows.collect(),
    }
}

/// A time before it was rounded, s.
fn exact(time: &TimeCell) -> f64 {
    time.seconds / Stops::new(time.rounding).factor()
}

/// A time that can be counted, s; shorter than a second is left as it is.
fn counted(seconds: f64) -> f64 {
    if seconds < 1.0 {
        return seconds;
    }
    match LONG.into_iter().find(|(from, _)| seconds >= *from) {
        Some((_, step)) => libm::round(seconds / step) * step,
        None => countable(Range::exact(seconds)).best,
    }
}

/// Whether the log tells the times, how far off they may be, the widest of the table, and what rounding makes at most, in
/// stops.
fn sureness(common: &Common<'_>, table: &ExposureTable) -> String {
    let words = &common.words.kinds;
    let from = if table.papers.iter().all(|paper| paper.by_log) {
        words.from_log
    } else {
        words.from_paper
    };
    let times = || {
        let cells = table.rows.iter().flat_map(|row| &row.times);
        cells.filter_map(|cell| match cell {
            Cell::Time(time) if time.seconds <= WAIT => Some(time),
            _ => None,
        })
    };
    let widest = times().flat_map(|time| time.stops).fold(0.0_f64, f64::max);
    let rounding = times()
        .map(exact)
        .map(|exact| libm::fabs(libm::log2(counted(exact) / exact)))
        .fold(0.0_f64, f64::max);
    // To half a stop, upwards: finer is not known.
    let stops = libm::ceil(widest * 2.0) / 2.0;
    let mut said = from.to_owned();
    if stops > 0.0 {
        let stops = show(
            Range::exact(stops),
            Dimension::Number,
            Digits::Significant(2),
            common.style,
        );
        said = Words::fill_all(words.give_or_take, &[&said, &stops]);
    }
    // Beside how unsure the times are a small rounding is no news.
    if rounding >= 0.005 && rounding >= 0.1 * stops {
        let rounding = show(
            Range::exact(libm::ceil(rounding * 100.0) / 100.0),
            Dimension::Stops,
            Digits::Decimals(2),
            common.style,
        );
        said = Words::fill_all(words.rounded, &[&said, &rounding]);
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn no_time_is_a_tenth_of_a_stop_off(seconds in 0.1..43_200.0f64) {
            prop_assert!(libm::fabs(libm::log2(counted(seconds) / seconds)) < 0.075);
        }
    }
}
