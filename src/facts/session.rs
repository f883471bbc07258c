//! Facts of a session: when it began, how long its sheets were to develop, how long they really lay where.

use crate::clock::development::factorial;
use crate::notebook::{Notebook, Process, ProcessStep, Role, Session, StepKind};
use crate::units::scalar::Time;
use crate::units::{Amount, Range, Style};

use super::bath::Bath;
use super::baths::Baths;
use super::cost;
use super::fact::{Fact, Measure};
use super::line::{SPAN, litres, litres_fact, no_time, under_lamp};
use super::recipe::time_at;

pub(super) fn facts(session: &Session, notebook: &Notebook, baths: &Baths, style: Style) -> Vec<Fact> {
    let starts = Fact::new("starts", Measure::Instant, "as written");
    let starts = match session.when.get() {
        Some(when) => starts.from("when", when.written.clone()).instant(when.rfc3339()),
        None => starts.gap("when it began cannot be read"),
    };
    let process = session
        .process
        .get()
        .and_then(|process| notebook.process(&process.value))
        .map(|(_, process)| process);
    let Some(process) = process else {
        let unknown = |fact: Fact| fact.gap("the process is not known");
        return vec![
            starts,
            unknown(by_temperature()),
            unknown(under_fact()),
            unknown(litres_fact()),
            cost::session_fact(session, None, notebook, baths),
        ];
    };
    let developer = developer(process, baths);
    let develop = develop_time(session, developer, style);
    let real = real_times(session, process);
    let developed = develop.range();
    let better = |at: usize| {
        if let Some(time) = real.get(at).copied().flatten() {
            return Some((time.range, ", real time"));
        }
        let bath = process.steps.get(at)?.bath.get()?;
        let is_developer = developer.is_some_and(|(_, developer)| developer.id == bath.value);
        developed.filter(|_| is_developer).map(|time| (time, ""))
    };
    let under = under_lamp(process, baths, style, &better, under_fact());
    let litres = litres(process, baths);
    let cost = cost::session_fact(session, Some(process), notebook, baths);
    vec![starts, develop, under, litres, cost]
}

fn under_fact() -> Fact {
    Fact::new(
        "under-lamp",
        SPAN,
        "times of the steps under the red lamp up to the fixer: the real ones where they are noted, else with the real \
         development time",
    )
}

/// The first developer of a line, and its step.
fn developer<'n>(process: &'n Process, baths: &'n Baths) -> Option<(&'n ProcessStep, &'n Bath)> {
    process
        .steps
        .iter()
        .filter(|step| step.kind == StepKind::Bath)
        .filter_map(|step| Some((step, baths.get(&step.bath.get()?.value)?)))
        .find(|(_, bath)| bath.role() == Some(Role::Developer))
}

fn by_temperature() -> Fact {
    Fact::new(
        "develop-time",
        SPAN,
        "stated time times Q10 to the tenth of the difference in degrees",
    )
}

/// The developer's time: by when the picture began to show, where the recipe says its factor, else at the session's
/// temperature.
fn develop_time(session: &Session, developer: Option<(&ProcessStep, &Bath)>, style: Style) -> Fact {
    let fact = by_temperature();
    let Some((step, developer)) = developer else {
        return fact.gap("the line has no developer");
    };
    if let Some(fact) = by_appearance(session, developer, style) {
        return fact;
    }
    let fact = fact.from("recipe", developer.id.clone());
    if step.ends_by_eye() {
        return fact.gap(no_time(step, &developer.id));
    }
    match session.temperature.get() {
        Some(temperature) => time_at(&developer.recipe.usage, temperature, style, fact),
        None if session.temperature.is_broken() => fact.gap("the temperature cannot be read"),
        None => fact.gap("the temperature was not noted"),
    }
}

/// From the first appearance that was noted of each sheet, with the middle sheet's as the best value. What the bath's
/// temperature does, it has done to the appearance already.
fn by_appearance(session: &Session, developer: &Bath, style: Style) -> Option<Fact> {
    let factor = developer.recipe.usage.factor.get()?;
    let here = |step: Option<&str>| step.is_none_or(|step| step == developer.id);
    let mut seen: Vec<&Amount> = session
        .events
        .iter()
        .filter(|event| here(event.step.get().map(|step| step.value.as_str())))
        .filter_map(|event| Some(&event.appeared.get()?.amount))
        .collect();
    seen.sort_by(|one, other| one.range.best.total_cmp(&other.range.best));
    let middle = seen.get(seen.len() / 2)?;
    let low = seen
        .iter()
        .map(|time| time.range.low)
        .fold(f64::INFINITY, f64::min);
    let high = seen.iter().map(|time| time.range.high).fold(0.0, f64::max);
    let total = |appeared: f64, factor: f64| factorial(Time::from_seconds(appeared), factor).seconds();
    let mut fact = Fact::new(
        "develop-time",
        SPAN,
        "time of first appearance times the recipe's factor",
    )
    .from("recipe", developer.id.clone())
    .from("factor", factor.show(style));
    for time in &seen {
        fact = fact.from("appeared", time.show(style));
    }
    Some(fact.number(Range::new(
        total(low, factor.range.low),
        total(middle.range.best, factor.range.best),
        total(high, factor.range.high),
    )))
}

/// The real time of each step of a line, where the session notes one under the step's name: its bath's id, else its tray's
/// name, else what it is; with a number behind it where a name comes again, as the clock writes it.
fn real_times<'n>(session: &'n Session, process: &Process) -> Vec<Option<&'n Amount>> {
    let mut names: Vec<String> = Vec::with_capacity(process.steps.len());
    for step in &process.steps {
        let own = step.bath.get().or(step.tray.get());
        let plain = own.map_or(step.kind.word(), |name| name.value.as_str());
        let mut name = plain.to_owned();
        let mut number = 1;
        while names.contains(&name) {
            number += 1;
            name = format!("{plain} {number}");
        }
        names.push(name);
    }
    let noted = |name: &String| {
        let found = session.times.iter().find(|(step, _)| step.value == *name);
        found.map(|(_, time)| &time.amount)
    };
    names.iter().map(noted).collect()
}
