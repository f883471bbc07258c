//! A process as a line of trays that a timetable can be made of.

use crate::clock::schedule::{ScheduleError, Stage, TrayLine, TrayTimes};
use crate::notebook::{Process, ProcessStep, Role, StepKind};
use crate::units::Range;
use crate::units::scalar::Time;

use super::Bath;
use super::baths::Baths;
use super::line::{no_time, step_time};

/// A tray of a line, as a sheet meets it.
#[derive(Debug, Clone, PartialEq)]
pub struct LineTray {
    /// Its place among the steps of the process.
    pub step: usize,
    /// How long a sheet lies in it, in seconds; the middle is aimed at. None where the eye ends it, or nothing is written.
    pub stay: Option<Range>,
    /// How much longer than the middle it may stay, in seconds; none for as long as one likes.
    ///
    /// As written; else up to the end of a range of times. A developer, toner or bleach with one time may not stay longer, other
    /// baths and washes may: common practice, no source.
    pub slack: Option<f64>,
    /// How many sheets it holds at once; one where nothing is written.
    pub places: u32,
    /// How long a sheet drips over it when it leaves, in seconds.
    pub drain: f64,
}

/// The trays of a line: every step up to the drying that ends it.
///
/// Fails where a step or its time cannot be read, since a clock that leaves out a tray would be followed.
pub fn line_trays(process: &Process, baths: &Baths) -> Result<Vec<LineTray>, String> {
    if process.incomplete {
        return Err("a step of the line cannot be read".to_owned());
    }
    let wet = process.steps.len() - usize::from(drying(process).is_some());
    let steps = process.steps.iter().take(wet).enumerate();
    steps.map(|(at, step)| tray(at, step, baths)).collect()
}

/// The drying that ends a line, where one does.
pub fn drying(process: &Process) -> Option<&ProcessStep> {
    process.steps.last().filter(|step| step.kind == StepKind::Dry)
}

fn tray(at: usize, step: &ProcessStep, baths: &Baths) -> Result<LineTray, String> {
    if step.time.is_broken() || step.slack.is_broken() || step.drain.is_broken() {
        return Err(format!("a time of step {} cannot be read", at + 1));
    }
    let stay = step_time(step, baths).ok();
    let role = step
        .bath
        .get()
        .and_then(|bath| baths.get(&bath.value))
        .and_then(Bath::role);
    let works_on = matches!(role, Some(Role::Developer | Role::Toner | Role::Bleach));
    let over = stay
        .filter(|stay| !stay.is_exact())
        .map(|stay| stay.high - stay.best);
    Ok(LineTray {
        step: at,
        stay,
        slack: step
            .slack
            .get()
            .map(|slack| slack.range.best)
            .or(over)
            .or_else(|| works_on.then_some(0.0)),
        places: step.places.get().map_or(1, |places| places.value),
        drain: step.drain.get().map_or(0.0, |drain| drain.range.best),
    })
}

/// How long a move takes, in seconds; none is counted where none is written.
pub fn move_seconds(process: &Process) -> f64 {
    process.move_time.get().map_or(0.0, |time| time.range.best)
}

/// When each of `sheets` equal sheets is moved, or why that cannot be said.
///
/// `budget` bounds the search as in [`TrayLine::timetable`].
pub fn tray_times(
    process: &Process,
    trays: &[LineTray],
    sheets: u32,
    budget: usize,
) -> Result<TrayTimes, String> {
    let step = |tray: &LineTray| process.steps.get(tray.step);
    let name = |tray: &LineTray| {
        let named = step(tray).and_then(|step| step.tray.get().or(step.bath.get()));
        named.map_or_else(|| format!("step {}", tray.step + 1), |name| name.value.clone())
    };
    if sheets > 1 {
        for (at, tray) in trays.iter().enumerate() {
            let shared = |other: &LineTray| names_one(process, tray.step, other.step);
            if sheets > tray.places && trays.iter().skip(at + 1).any(shared) {
                return Err(format!(
                    "`{}` serves two steps and holds {} at once",
                    name(tray),
                    tray.places
                ));
            }
        }
    }
    let stages = trays
        .iter()
        .map(|tray| {
            let stay = tray.stay.map(|stay| stay.best).ok_or_else(|| {
                let step = step(tray);
                step.map_or_else(String::new, |step| no_time(step, &name(tray)))
            })?;
            Ok(Stage {
                stay: Time::from_seconds(stay),
                slack: tray.slack.map(Time::from_seconds),
                places: tray.places,
                drain: Time::from_seconds(tray.drain),
            })
        })
        .collect::<Result<Vec<_>, String>>()?;
    let line = TrayLine {
        sheets,
        move_time: Time::from_seconds(move_seconds(process)),
        hands: process.hands.get().map_or(1, |hands| hands.value),
        stages,
    };
    line.timetable(budget).map_err(|error| match error {
        ScheduleError::Empty => "the line has no trays".to_owned(),
        other => other.to_string(),
    })
}

/// Whether two steps name one tray.
fn names_one(process: &Process, one: usize, other: usize) -> bool {
    let tray = |at: usize| {
        let tray = process.steps.get(at)?.tray.get()?;
        Some(tray.value.as_str())
    };
    tray(one).is_some_and(|name| tray(other) == Some(name))
}
