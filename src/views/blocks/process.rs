//! A process: the line of trays, then how each is worked, and under which light.

use crate::notebook::{Block, Duration, Process, ProcessStep, Slot, StepKind, StepLight};
use crate::units::Style;

use super::super::block_view::Desk;
use super::super::page::Row;
use super::super::words::Words;
use super::Said;
use super::rows::{Rows, amounts, base_word, reference_row, row, unlabelled};

pub(super) fn said(desk: &Desk<'_>, block: &Block, process: &Process) -> Said {
    let mut line = Rows::new(desk, block);
    let mut moves = Rows::new(desk, block);
    for (at, step) in process.steps.iter().enumerate() {
        let named = named(desk, block, step);
        let label = format!("{} {}", at + 1, named.label);
        let words = worked(step, desk.words, desk.style);
        if !words.is_empty() {
            moves.plain(&label, words);
        }
        line.push(named);
    }
    let (style, row) = (desk.style, &desk.words.block.row);
    let mut rest = Rows::new(desk, block);
    for lit in lights(&process.steps, desk.words) {
        rest.push(lit);
    }
    rest.count(row.hands, &process.hands);
    rest.slot(row.each_move, &process.move_time, |time| {
        unlabelled(time.show(style))
    });
    Said {
        subtitle: process.paper.get().map_or_else(String::new, |base| {
            Words::fill(desk.words.block.value.for_paper, base_word(desk, base.value))
        }),
        sections: vec![
            line.figures(None),
            moves.lines(Some(row.at_each_tray)),
            rest.lines(Some(row.light_and_hands)),
        ],
        pictures: Vec::new(),
    }
}

/// The tray: what is in it, how long, how warm, and what it is called at the line and on its clock.
fn named(desk: &Desk<'_>, block: &Block, step: &ProcessStep) -> Row {
    let (style, words) = (desk.style, desk.words);
    let reference = step
        .bath
        .get()
        .map(|bath| reference_row(desk, block.page, &bath.value));
    let (label, href) = match (reference, step.kind) {
        (Some(bath), _) => (bath.value, bath.href),
        (None, StepKind::Bath) => (words.block.value.a_bath.to_owned(), None),
        (None, kind) => ((words.step_kind)(kind).to_owned(), None),
    };
    let value = match &step.time {
        Slot::Is(time) => match &time.value {
            Duration::Takes(time) => time.show(style),
            Duration::ByInspection => words.card.by_inspection.to_owned(),
        },
        Slot::Broken | Slot::Absent => "—".to_owned(),
    };
    let filled = match (&step.temperature, &step.with) {
        (Slot::Is(temperature), _) => Some(temperature.show(style)),
        (_, with) => with.clone(),
    };
    let tray = step.tray.get().filter(|tray| tray.value != label);
    let tray = tray.map(|tray| Words::fill(words.card.tray, &tray.value));
    let remark: Vec<String> = filled.into_iter().chain(tray).collect();
    Row {
        remark: remark.join(", "),
        href,
        ..row(&label, value)
    }
}

/// How a tray is worked, in one line.
fn worked(step: &ProcessStep, words: &Words, style: Style) -> String {
    let (say, row) = (&words.block.value, &words.block.row);
    let mut words = Vec::new();
    words.extend(
        step.agitation
            .get()
            .map(|agitation| agitation.value.trim().to_owned()),
    );
    words.extend(step.changes.get().map(|changes| match changes.value {
        1 => say.one_change.to_owned(),
        changes => Words::fill(say.changes, &changes.to_string()),
    }));
    words.extend(
        step.drain
            .get()
            .map(|drain| Words::fill(say.drip, &drain.show(style))),
    );
    words.extend(
        step.slack
            .get()
            .map(|slack| Words::fill(say.may_wait, &slack.show(style))),
    );
    words.extend(
        step.within
            .get()
            .map(|within| Words::fill(say.no_later, &within.show(style))),
    );
    if !step.clears.is_empty() {
        words.push(Words::fill(say.cleared_in, &amounts(&step.clears, style)));
    }
    words.extend(step.places.get().map(|places| match places.value {
        1 => row.one_sheet.to_owned(),
        places => Words::fill(row.many_sheets, &places.to_string()),
    }));
    words.join("; ")
}

/// Which trays stand under which light, run by run.
fn lights(steps: &[ProcessStep], words: &Words) -> Vec<Row> {
    let say = &words.block.value;
    let mut runs: Vec<(&str, usize, usize)> = Vec::new();
    for (at, step) in steps.iter().enumerate() {
        let Some(light) = step.light.get() else { continue };
        match runs.last_mut() {
            Some((held, _, last)) if *held == light.value && *last == at => *last = at + 1,
            _ => runs.push((light.value, at + 1, at + 1)),
        }
    }
    runs.into_iter()
        .map(|(light, first, last)| {
            let label = match light {
                "red" => say.red_lamp,
                "room" => (words.light)(StepLight::Room),
                "dark" => say.no_light,
                other => other,
            };
            let value = match last - first {
                0 => Words::fill(words.card.tray, &first.to_string()),
                1 => Words::fill_all(say.two_trays, &[&first.to_string(), &last.to_string()]),
                _ => Words::fill_all(say.many_trays, &[&first.to_string(), &last.to_string()]),
            };
            row(label, value)
        })
        .collect()
}
