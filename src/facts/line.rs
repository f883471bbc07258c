//! Facts of processes, safelights and batches: sums of times, what lies under the lamp, when a bath dies.

use jiff::ZonedDateTime;

use crate::notebook::{Batch, Duration, Fog, Process, ProcessStep, Safelight, StepKind, StepLight};
use crate::optics;
use crate::units::scalar::{Length, Time};
use crate::units::{Amount, Digits, Dimension, Range, Style};

use super::bath::Bath;
use super::baths::Baths;
use super::end_of_life::end_of_life;
use super::fact::{Fact, Measure};
use super::log::Log;

pub(super) const SPAN: Measure = Measure::Amount(Dimension::Time, Digits::Significant(2));
const LITRES: Measure = Measure::Amount(Dimension::Volume, Digits::Significant(2));

pub(super) fn process_facts(process: &Process, baths: &Baths, style: Style) -> Vec<Fact> {
    let duration = Fact::new("duration", SPAN, "times of all steps, with draining and moving");
    let under = Fact::new(
        "under-lamp",
        SPAN,
        "times of the steps under the red lamp, up to the fixer or the first in room light",
    );
    vec![
        sum_of_steps(process, baths, style, &as_written, duration, &|_| true),
        under_lamp(process, baths, style, &as_written, under),
        litres(process, baths),
    ]
}

/// What is known better than as it is written of how long a step takes, by its place in the line: with a word for where that is
/// from.
pub(super) type Better<'a> = dyn Fn(usize) -> Option<(Range, &'static str)> + 'a;

/// Nothing is known better.
fn as_written(_: usize) -> Option<(Range, &'static str)> {
    None
}

/// How long a step of a line takes, as it is written: as the line says, else as the use of its bath's recipe says.
///
/// None where the line leaves the end to the eye: what the recipe says then is not what this line does. Its factor is of
/// no help either, since the time of first appearance is only seen at the tray. None as well where nothing is written, or
/// what is written cannot be read.
pub fn stated_time<'n>(step: &'n ProcessStep, bath: Option<&'n Bath>) -> Option<&'n Amount> {
    match step.time.get().map(|time| &time.value) {
        Some(Duration::Takes(time)) => Some(time),
        Some(Duration::ByInspection) => None,
        None if step.time.is_broken() => None,
        None => bath?.recipe.usage.time.get().map(|time| &time.amount),
    }
}

/// The same as a range, or why there is none.
pub(super) fn step_time(step: &ProcessStep, baths: &Baths) -> Result<Range, String> {
    let bath = step.bath.get();
    let what = bath.map_or(step.kind.word(), |bath| bath.value.as_str());
    let known = bath.and_then(|bath| baths.get(&bath.value));
    stated_time(step, known)
        .map(|time| time.range)
        .ok_or_else(|| no_time(step, what))
}

/// Why a step has no time.
pub(super) fn no_time(step: &ProcessStep, what: &str) -> String {
    if step.ends_by_eye() {
        format!("only the eye can end `{what}`")
    } else if step.time.is_broken() {
        format!("the time of `{what}` cannot be read")
    } else {
        format!("`{what}` does not say how long")
    }
}

fn sum_of_steps(
    process: &Process,
    baths: &Baths,
    style: Style,
    better: &Better<'_>,
    mut fact: Fact,
    counts: &dyn Fn(usize) -> bool,
) -> Fact {
    if process.incomplete {
        return fact.gap("a step of the line cannot be read");
    }
    let moves = process.move_time.get().map_or(Range::ZERO, |time| time.range);
    let mut total = Range::ZERO;
    for (at, step) in process.steps.iter().enumerate() {
        if !counts(at) {
            continue;
        }
        let written = || step_time(step, baths).map(|time| (time, ""));
        let (time, from) = match better(at).map_or_else(written, Ok) {
            Ok(known) => known,
            Err(why) => return fact.gap(why),
        };
        let what = step
            .bath
            .get()
            .map_or(step.kind.word(), |bath| bath.value.as_str());
        fact = fact.from(
            format!("{what}{from}"),
            crate::units::show(time, Dimension::Time, Digits::Significant(3), style),
        );
        total = total + time + moves;
        if let Some(drain) = step.drain.get() {
            fact = fact.from("drain", drain.show(style));
            total = total + drain.range;
        }
    }
    fact.number(total)
}

/// The steps under the red lamp up to the fixer: a step that says nothing is lit as the one before it.
///
/// What the lamp does to a sheet in the fixer, or to one that is washed or dried, no developer will show.
pub(super) fn under_lamp(
    process: &Process,
    baths: &Baths,
    style: Style,
    better: &Better<'_>,
    fact: Fact,
) -> Fact {
    let mut light = None;
    let mut lit = Vec::with_capacity(process.steps.len());
    let mut opened = false;
    for step in &process.steps {
        if step.light.get().is_some() {
            light = step.lit();
        }
        let bath = step.bath.get().and_then(|bath| baths.get(&bath.value));
        opened |= light == Some(StepLight::Room)
            || matches!(step.kind, StepKind::Wash | StepKind::WashAid | StepKind::Dry)
            || bath.is_some_and(Bath::fixes);
        lit.push(light == Some(StepLight::Red) && !opened);
    }
    if light.is_none() {
        return fact.gap("no step says under which light it is done");
    }
    sum_of_steps(process, baths, style, better, fact, &|at| {
        lit.get(at).copied().unwrap_or(false)
    })
}

/// `litres`, before it is known of which line.
pub(super) fn litres_fact() -> Fact {
    Fact::new(
        "litres",
        LITRES,
        "what the line's recipes make, each once and as thin as it is used",
    )
}

pub(super) fn litres(process: &Process, baths: &Baths) -> Fact {
    let mut fact = litres_fact();
    let mut total = Range::ZERO;
    let mut seen: Vec<&str> = Vec::new();
    for step in &process.steps {
        let Some(bath) = step.bath.get() else { continue };
        if seen.contains(&bath.value.as_str()) {
            continue;
        }
        seen.push(&bath.value);
        let known = baths.get(&bath.value);
        match known.and_then(Bath::working_litres) {
            Some(litres) => {
                let diluted = known.is_some_and(|bath| bath.recipe.usage.dilution.get().is_some());
                let diluted = if diluted { ", diluted for use" } else { "" };
                let shown = format!("{} l{diluted}", litres.best);
                fact = fact.from(format!("{}.volume", bath.value), shown);
                total = total + litres;
            }
            None => return fact.gap(format!("the volume of `{}` is not known", bath.value)),
        }
    }
    fact.number(total)
}

pub(super) fn safelight_facts(safelight: &Safelight, style: Style) -> Vec<Fact> {
    let fact = Fact::new(
        "safe-time",
        SPAN,
        "half the time at which fog first showed, by the square of the distances",
    )
    .source("ansi-it2-26");
    vec![safe_time(safelight, style, fact)]
}

fn safe_time(safelight: &Safelight, style: Style, mut fact: Fact) -> Fact {
    let Some(test) = safelight.tested.get() else {
        return fact.gap(
            "the lamp is not tested with this paper: lay coins on a sheet and see when their edges show",
        );
    };
    let mut shortest: Option<Range> = None;
    for (word, slot) in [("bare", &test.bare), ("pre-exposed", &test.pre_exposed)] {
        if slot.is_broken() {
            return fact.gap("the fog test cannot be read");
        }
        let Some(fog) = slot.get() else { continue };
        let (Fog::Showed(time) | Fog::CleanTo(time)) = &fog.value;
        let clean = if matches!(fog.value, Fog::CleanTo(_)) {
            "clean to "
        } else {
            ""
        };
        fact = fact.from(word, format!("{clean}{}", time.show(style)));
        shortest = Some(match shortest {
            Some(held) if held.best <= time.range.best => held,
            _ => time.range,
        });
    }
    let Some(threshold) = shortest else {
        return fact.gap("the fog test names no time");
    };
    let lamp = safelight.distance.get().map(|distance| distance.range.best);
    let halved = |seconds: f64| {
        let safe = optics::safelight::safe_time(Time::from_seconds(seconds));
        match (lamp, test.at.get()) {
            (Some(lamp), Some(at)) => {
                let (tested, now) = (
                    Length::from_millimetres(at.range.best),
                    Length::from_millimetres(lamp),
                );
                optics::safelight::at_distance(safe, tested, now).seconds()
            }
            _ => safe.seconds(),
        }
    };
    if let Some(at) = test.at.get() {
        fact = fact.from("tested at", at.show(style));
    }
    if let Some(distance) = safelight.distance.get() {
        fact = fact.from("distance", distance.show(style));
    }
    fact.number(threshold.map_monotone(halved))
}

pub(super) fn batch_facts(batch: &Batch, id: &str, log: &Log<'_>, baths: &Baths, style: Style) -> Vec<Fact> {
    let dead = Fact::new(
        "dead-by",
        Measure::Instant,
        "when it was mixed, and the recipe's working life",
    );
    let age = Fact::new("age", SPAN, "from mixing to the last session that used it");
    let Some(made) = batch.made.get() else {
        return vec![
            dead.gap("when it was mixed cannot be read"),
            age.gap("when it was mixed cannot be read"),
        ];
    };
    let dead = dead.from("made", made.written.clone());
    vec![
        dead_by(baths.of_batch(id, batch), &made.at, style, dead),
        age_of(id, &made.at, log, age),
    ]
}

fn dead_by(recipe: Option<&Bath>, made: &ZonedDateTime, style: Style, fact: Fact) -> Fact {
    let Some(recipe) = recipe else {
        return fact.gap("its recipe is not known");
    };
    let keeps = &recipe.recipe.keeps;
    // Where nothing is said of the tray, what is said of the bottle, else of the stock.
    let life = keeps.working().or(keeps.bottle.get()).or(keeps.stock.get());
    let Some(life) = life else {
        return fact.gap(if keeps.is_absent() {
            "the recipe does not say how long it keeps"
        } else {
            "how long it keeps cannot be read"
        });
    };
    let fact = fact.from("keeps", life.show(style));
    // The earliest end of a range is the one to go by.
    match end_of_life(made, life, life.range.low) {
        Some(end) => fact.instant(end.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string()),
        None => fact.gap("the date lies beyond the calendar"),
    }
}

fn age_of(id: &str, made: &ZonedDateTime, log: &Log<'_>, mut fact: Fact) -> Fact {
    let mut last = None;
    for (block, session) in log.of_batch(id) {
        if let Some(when) = session.when.get() {
            let age = when.at.duration_since(made).as_secs_f64();
            if last.is_none_or(|(_, held)| age > held) {
                last = Some((block.id.as_str(), age));
            }
        }
    }
    match last {
        Some((session, age)) => {
            fact = fact.from("session", session);
            if age < 0.0 {
                fact.gap(format!("`{session}` used it before it was mixed"))
            } else {
                fact.number(Range::exact(age))
            }
        }
        None => fact.gap("no session used it"),
    }
}
