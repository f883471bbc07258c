//! From the processes of a notebook to their clocks.

use std::collections::{BTreeMap, BTreeSet};

use crate::facts::{self, Bath, Facts, LineTray};
use crate::finding::Finding;
use crate::notebook::{Block, Body, Duration, Notebook, Process, ProcessStep, StepLight};
use crate::syntax::slug;
use crate::units::{Digits, Dimension, Range, Style, show};

use super::agitation::Agitation;
use super::block_view::Desk;
use super::clock_offers::Offers;
use super::clock_page::{ClockPage, ClockTray, Dry, Plan, Run, RunTray, TimeRow, TimeTable};
use super::process_card::{names, places_in_line};
use super::words::{Group, Words, words_of};

/// The most sheets that a timetable is made for: two hands do not follow more at once. Common practice, no source.
const MOST_SHEETS: u32 = 6;
/// Nodes that the search for one timetable may visit; a line of eight trays and six sheets is done well within.
const BUDGET: usize = 4000;

/// Where the clock of each process stands, by the block's id: `clock/rc-line.html`.
///
/// What is not to be followed from a card has none: a process with a fault, with a bath that has one, or kept to teach a
/// mistake.
pub(super) fn paths(
    notebook: &Notebook,
    facts: &Facts,
    findings: &[Finding],
    is_open: impl Fn(&str) -> bool,
    is_taken: impl Fn(&str) -> bool,
) -> BTreeMap<String, String> {
    let processes = || notebook.blocks.iter().filter(|block| is_process(block));
    if processes().next().is_none() {
        return BTreeMap::new();
    }
    let left = super::cards::left_out(notebook, facts, findings);
    let mut taken = BTreeSet::new();
    let mut paths = BTreeMap::new();
    for block in processes() {
        let Body::Process(process) = &block.body else {
            continue;
        };
        let timed = facts::line_trays(process, &facts.baths).is_ok_and(|trays| !trays.is_empty());
        // A time that stands in a recipe that may not be shown may not be shown either.
        let hidden = |step: &ProcessStep| {
            step.time.is_absent() && step.bath.get().is_some_and(|bath| !is_open(&bath.value))
        };
        if !timed
            || process.steps.iter().any(hidden)
            || block.doubled
            || !is_open(&block.id)
            || left.contains_key(block.id.as_str())
        {
            continue;
        }
        let stem = slug(&block.id);
        let mut path = format!("clock/{stem}.html");
        let mut number = 1;
        while is_taken(&path.to_lowercase()) || !taken.insert(path.to_lowercase()) {
            number += 1;
            path = format!("clock/{stem}-{number}.html");
        }
        paths.insert(block.id.clone(), path);
    }
    paths
}

fn is_process(block: &Block) -> bool {
    block.named && matches!(block.body, Body::Process(_))
}

/// The clocks of all processes that have a path, in reading order.
pub(super) fn pages(desk: &Desk<'_>) -> Vec<ClockPage> {
    if desk.clocks.is_empty() {
        return Vec::new();
    }
    let offers = Offers::of(desk);
    let processes = desk
        .notebook
        .blocks
        .iter()
        .filter(|block| desk.notebook.leads_to(block));
    processes
        .filter_map(|block| match &block.body {
            Body::Process(process) => page(desk, &offers, block, process),
            _ => None,
        })
        .collect()
}

fn page(desk: &Desk<'_>, offers: &Offers<'_>, block: &Block, process: &Process) -> Option<ClockPage> {
    let path = desk.clocks.get(&block.id)?.clone();
    let line = facts::line_trays(process, &desk.facts.baths).ok()?;
    let words = words_of(desk.notebook);
    let numbers = places_in_line(process);
    let steps: Vec<(&ProcessStep, &LineTray)> = line
        .iter()
        .filter_map(|tray| Some((process.steps.get(tray.step)?, tray)))
        .collect();
    let trays: Vec<ClockTray> = steps
        .iter()
        .map(|(step, tray)| {
            let number = numbers.get(tray.step).copied().flatten();
            drawn(desk, words, step, tray, number.unwrap_or(tray.step + 1))
        })
        .collect();
    let (plans, no_more) = plans(process, &line);
    let settings = &desk.notebook.settings;
    let dry = facts::drying(process);
    let run = Run {
        notebook: settings
            .title
            .get()
            .map_or_else(String::new, |title| title.value.clone()),
        id: block.id.clone(),
        title: block.name().to_owned(),
        zone: settings
            .zone
            .get()
            .and_then(|zone| zone.iana_name())
            .map(str::to_owned),
        decimal: desk.style.decimal.mark(),
        hands: process.hands.get().map_or(1, |hands| hands.value),
        move_time: facts::move_seconds(process),
        trays: running(desk, &steps, &trays),
        dry: dry.and_then(range).map(|time| [time.low, time.high]),
        sheets: offers.sheets(process),
        lamps: offers.lamps.clone(),
        batches: offers.batches(process),
        plans,
    };
    Some(ClockPage {
        root: super::paths::root_of(&path).to_owned(),
        path,
        title: block.name().to_owned(),
        subtitle: super::process_card::base(words, process),
        block: desk.places.block_from_root(block)?,
        card: desk.cards.get(&block.id).cloned(),
        dry: dry.map(|step| Dry {
            name: step
                .with
                .clone()
                .unwrap_or_else(|| (words.step_kind)(step.kind).to_owned()),
            time: range(step).map_or_else(String::new, |time| worded(time, desk.style)),
        }),
        // Behind a tray that nobody can time no time can be told.
        tables: if line.iter().all(|tray| tray.stay.is_some()) {
            run.plans.iter().map(|plan| table(&run, plan, &trays)).collect()
        } else {
            Vec::new()
        },
        trays,
        no_more,
        words: words.site.clock.by_name(),
        says: words.site.clock_says.by_name(),
        run,
    })
}

fn drawn(desk: &Desk<'_>, words: &Words, step: &ProcessStep, tray: &LineTray, number: usize) -> ClockTray {
    let style = desk.style;
    let bath = step.bath.get().map(|bath| bath.value.as_str());
    let known = bath.and_then(|bath| open_bath(desk, bath));
    let kind = known
        .and_then(Bath::role)
        .map_or_else(|| (words.step_kind)(step.kind), words.role);
    let usage = known.map(|bath| &bath.recipe.usage);
    let warm = step
        .temperature
        .get()
        .or(usage.and_then(|usage| usage.temperature.get()));
    let title = bath.and_then(|bath| desk.places.block(bath)).map(Block::name);
    let name = step.tray.get().map_or(kind, |tray| tray.value.as_str());
    // Which step it is for, where neither the tray's name nor the bath's says so.
    let filled = title.or(step.with.as_deref());
    let told = names(name, kind) || filled.is_some_and(|filled| names(filled, kind));
    let what: Vec<&str> = Some(kind).filter(|_| !told).into_iter().chain(filled).collect();
    ClockTray {
        number,
        name: name.to_owned(),
        what: what.join(", "),
        time: match tray.stay {
            Some(stay) => worded(stay, style),
            None if step.ends_by_eye() => words.card.by_inspection.to_owned(),
            None => String::new(),
        },
        temperature: warm.map_or_else(String::new, |warm| warm.show(style)),
        light: step
            .lit()
            .map_or_else(String::new, |light| (words.light)(light).to_owned()),
        agitation: agitation(desk, step).unwrap_or_default(),
        drain: step
            .drain
            .get()
            .map_or_else(String::new, |drain| drain.show(style)),
    }
}

/// What a recipe holds, where that may be shown.
fn open_bath<'a>(desk: &Desk<'a>, id: &str) -> Option<&'a Bath> {
    desk.places
        .is_open(id)
        .then(|| desk.facts.baths.get(id))
        .flatten()
}

/// The trays for the script, each with a name of its own for the session.
fn running(desk: &Desk<'_>, steps: &[(&ProcessStep, &LineTray)], trays: &[ClockTray]) -> Vec<RunTray> {
    let mut names: Vec<String> = Vec::new();
    let each = steps.iter().zip(trays);
    each.map(|((step, tray), drawn)| {
        let bath = step.bath.get().map(|bath| bath.value.clone());
        let plain = bath.clone().unwrap_or_else(|| drawn.name.clone());
        let mut name = plain.clone();
        let mut number = 1;
        while names.contains(&name) {
            number += 1;
            name = format!("{plain} {number}");
        }
        names.push(name.clone());
        RunTray {
            name: drawn.name.clone(),
            step: name,
            bath,
            stay: tray.stay.map(|stay| stay.best),
            slack: tray.slack,
            places: tray.places,
            drain: tray.drain,
            light: step.lit().map(StepLight::word),
            agitation: agitation(desk, step).map(|words| Agitation::read(&words, desk.style)),
        }
    })
    .collect()
}

/// A timetable for each number of sheets, and why there is none for the next number.
fn plans(process: &Process, line: &[LineTray]) -> (Vec<Plan>, Option<String>) {
    let mut plans = vec![alone(process, line)];
    for sheets in 2..=MOST_SHEETS {
        match facts::tray_times(process, line, sheets, BUDGET) {
            Ok(times) => plans.push(Plan {
                starts: times
                    .moves
                    .iter()
                    .map(|sheet| sheet.iter().map(|start| start.seconds()).collect())
                    .collect(),
                end: times.end.seconds(),
            }),
            Err(why) => return (plans, Some(why)),
        }
    }
    (plans, None)
}

/// One sheet alone goes on as soon as it may; a tray that the eye ends is counted as no time.
fn alone(process: &Process, line: &[LineTray]) -> Plan {
    let each_move = facts::move_seconds(process);
    let mut starts = vec![0.0];
    let mut now = each_move;
    for tray in line {
        now += tray.stay.map_or(0.0, |stay| stay.best);
        starts.push(now);
        now += tray.drain + each_move;
    }
    Plan {
        starts: vec![starts],
        end: now,
    }
}

fn table(run: &Run, plan: &Plan, trays: &[ClockTray]) -> TimeTable {
    let rows = trays.iter().enumerate().map(|(at, drawn)| {
        let length = run.move_time
            + at.checked_sub(1)
                .and_then(|before| run.trays.get(before))
                .map_or(0.0, |before| before.drain);
        let times = plan.starts.iter().map(|sheet| {
            let start = |at: usize| sheet.get(at).copied().unwrap_or(0.0);
            format!("{}–{}", clock(start(at) + length), clock(start(at + 1)))
        });
        TimeRow {
            number: drawn.number,
            name: drawn.name.clone(),
            times: times.collect(),
        }
    });
    TimeTable {
        sheets: plan.starts.len(),
        end: clock(plan.end),
        rows: rows.collect(),
    }
}

/// Seconds as a clock shows them: `4:05`, `1:04:05`.
pub(super) fn clock(seconds: f64) -> String {
    let whole = seconds.round().max(0.0) as u64;
    let (hours, minutes, seconds) = (whole / 3600, whole / 60 % 60, whole % 60);
    if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    }
}

fn worded(time: Range, style: Style) -> String {
    show(time, Dimension::Time, Digits::Significant(3), style)
}

fn range(step: &ProcessStep) -> Option<Range> {
    match &step.time.get()?.value {
        Duration::Takes(time) => Some(time.range),
        Duration::ByInspection => None,
    }
}

/// As the line says, else as the recipe's use says.
fn agitation(desk: &Desk<'_>, step: &ProcessStep) -> Option<String> {
    let bath = step.bath.get().and_then(|bath| open_bath(desk, &bath.value));
    let own = step.agitation.get();
    let words = own.or_else(|| bath.and_then(|bath| bath.recipe.usage.agitation.get()));
    words.map(|words| words.value.trim().to_owned())
}

#[cfg(test)]
mod tests {
    use super::clock;

    #[test]
    fn seconds_are_read_as_on_a_clock() {
        assert_eq!(clock(0.0), "0:00");
        assert_eq!(clock(245.4), "4:05");
        assert_eq!(clock(3845.0), "1:04:05");
    }
}
