//! The card of a camera: how long for which light, on her own papers, in times that can be counted beside the tripod.

use std::collections::BTreeMap;

use crate::notebook::{Block, Body, Camera, Evidence, Light};
use crate::optics::SceneLight;
use crate::units::{Digits, Dimension, Range, Style, show};

use super::card::{Card, CardKind, Figure, Line, Times, TimesRow};
use super::cards::own_fault;
use super::common::Common;
use super::drawing::of_camera;
use super::exposure_table::{Cell, ExposureTable, Question, exposure_table};
use super::words::Words;

/// Papers on one card; more are a table to be printed on paper.
const PAPERS: usize = 3;
/// Longer than this nobody waits beside a camera, s.
const WAIT: f64 = 12.0 * 3600.0;

/// Times that one can count or read off a watch, s. No two stand more than 0.42 stops apart, so that none is more than 0.21
/// stops off: less than a paper shows. The choice is common practice, no source.
const COUNTED: [f64; 51] = [
    1.0, 1.3, 1.6, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0,
    75.0, 90.0, 120.0, 150.0, 180.0, 240.0, 300.0, 360.0, 480.0, 600.0, 720.0, 900.0, 1200.0, 1500.0, 1800.0,
    2400.0, 3000.0, 3600.0, 4500.0, 5400.0, 7200.0, 9000.0, 10_800.0, 14_400.0, 18_000.0, 21_600.0, 25_200.0,
    28_800.0, 32_400.0, 36_000.0, 39_600.0, 43_200.0,
];

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
                Range::exact(counted(time.seconds)),
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
                show(
                    Range::exact(libm::round(middle)),
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

/// The nearest time that can be counted, by stops; shorter than a second is left as it is.
fn counted(seconds: f64) -> f64 {
    let off = |time: f64| libm::fabs(libm::log2(time / seconds));
    let nearest = COUNTED.into_iter().min_by(|a, b| off(*a).total_cmp(&off(*b)));
    nearest.filter(|time| off(*time) < 0.22).unwrap_or(seconds)
}

/// Whether the log tells the times, and how far off they may be: the widest of the table, in stops.
fn sureness(common: &Common<'_>, table: &ExposureTable) -> String {
    let words = &common.words.kinds;
    let from = if table.papers.iter().all(|paper| paper.by_log) {
        words.from_log
    } else {
        words.from_paper
    };
    let cells = table.rows.iter().flat_map(|row| &row.times);
    let widest = cells.fold(0.0_f64, |widest, cell| match cell {
        Cell::Time(time) => time.stops.iter().copied().fold(widest, f64::max),
        Cell::Gap { .. } => widest,
    });
    // To half a stop, upwards: finer is not known.
    let stops = libm::ceil(widest * 2.0) / 2.0;
    if stops <= 0.0 {
        return from.to_owned();
    }
    let stops = show(
        Range::exact(stops),
        Dimension::Number,
        Digits::Significant(2),
        common.style,
    );
    Words::fill_all(words.give_or_take, &[from, &stops])
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn no_time_is_a_quarter_of_a_stop_off(seconds in 0.1..43_200.0f64) {
            prop_assert!(libm::fabs(libm::log2(counted(seconds) / seconds)) < 0.22);
        }
    }
}
