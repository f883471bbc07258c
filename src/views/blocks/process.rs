//! A process: the line of trays, then how each is worked, and under which light.

use crate::notebook::{Block, Duration, Process, ProcessStep, Slot, StepKind};
use crate::units::Style;

use super::super::block_view::Desk;
use super::super::page::Row;
use super::Said;
use super::rows::{Rows, amounts, reference_row, row};

pub(super) fn said(desk: &Desk<'_>, block: &Block, process: &Process) -> Said {
    let mut line = Rows::new(desk, block);
    let mut moves = Rows::new(desk, block);
    for (at, step) in process.steps.iter().enumerate() {
        let named = named(desk, block, step);
        let label = format!("{} {}", at + 1, named.label);
        let words = worked(step, desk.style);
        if !words.is_empty() {
            moves.plain(&label, words);
        }
        line.push(named);
    }
    let style = desk.style;
    let mut rest = Rows::new(desk, block);
    for row in lights(&process.steps) {
        rest.push(row);
    }
    rest.count("pairs of hands", &process.hands);
    rest.slot("each move takes", &process.move_time, |time| {
        row("", time.show(style))
    });
    Said {
        subtitle: process
            .paper
            .get()
            .map_or_else(String::new, |base| format!("for {} paper", base.value)),
        sections: vec![
            line.figures(None),
            moves.lines(Some("at each tray")),
            rest.lines(Some("light and hands")),
        ],
        pictures: Vec::new(),
    }
}

/// The tray: what is in it, how long, how warm.
fn named(desk: &Desk<'_>, block: &Block, step: &ProcessStep) -> Row {
    let style = desk.style;
    let reference = step
        .bath
        .get()
        .map(|bath| reference_row(desk, block.page, &bath.value));
    let (label, href) = match (reference, step.kind) {
        (Some(bath), _) => (bath.value, bath.href),
        (None, StepKind::Bath) => ("a bath".to_owned(), None),
        (None, kind) => (kind.word().to_owned(), None),
    };
    let value = match &step.time {
        Slot::Is(time) => match &time.value {
            Duration::Takes(time) => time.show(style),
            Duration::ByInspection => "by eye".to_owned(),
        },
        Slot::Broken | Slot::Absent => "—".to_owned(),
    };
    Row {
        remark: match (&step.temperature, &step.with) {
            (Slot::Is(temperature), _) => temperature.show(style),
            (_, Some(with)) => with.clone(),
            _ => String::new(),
        },
        href,
        ..row(&label, value)
    }
}

/// How a tray is worked, in one line.
fn worked(step: &ProcessStep, style: Style) -> String {
    let mut words = Vec::new();
    words.extend(
        step.agitation
            .get()
            .map(|agitation| agitation.value.trim().to_owned()),
    );
    words.extend(step.changes.get().map(|changes| match changes.value {
        1 => "one change of water".to_owned(),
        changes => format!("{changes} changes of water"),
    }));
    words.extend(
        step.drain
            .get()
            .map(|drain| format!("drip {}", drain.show(style))),
    );
    words.extend(
        step.slack
            .get()
            .map(|slack| format!("may wait {}", slack.show(style))),
    );
    words.extend(
        step.within
            .get()
            .map(|within| format!("no later than {} after the tray before", within.show(style))),
    );
    if !step.clears.is_empty() {
        words.push(format!("cleared in {}", amounts(&step.clears, style)));
    }
    words.extend(step.places.get().map(|places| match places.value {
        1 => "one sheet".to_owned(),
        places => format!("{places} sheets"),
    }));
    words.join("; ")
}

/// Which trays stand under which light, run by run.
fn lights(steps: &[ProcessStep]) -> Vec<Row> {
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
                "red" => "red lamp",
                "room" => "room light",
                "dark" => "no light at all",
                other => other,
            };
            let value = match last - first {
                0 => format!("tray {first}"),
                1 => format!("trays {first} and {last}"),
                _ => format!("trays {first} to {last}"),
            };
            row(label, value)
        })
        .collect()
}
