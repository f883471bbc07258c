//! How long mixing takes: the steps of each part, then those of the whole.

use crate::clock::cooling::{OPEN_VESSEL, Standing};
use crate::notebook::{Notebook, Step, Verb, Water, slug};
use crate::units::scalar::{Temperature, Time};
use crate::units::{Digits, Dimension, Range, Style, show};

use super::bath::Bath;
use super::fact::{Fact, Measure};

const LENGTH: Measure = Measure::Amount(Dimension::Time, Digits::Significant(2));
const OF_PART: &str = "times of the part's steps, one after another";
const OF_WHOLE: &str =
    "the longest part, then the common steps; steps without a time of their own count nothing";
const OF_HANDS: &str = "times of the steps that need someone there";

/// `duration` of each part, `duration` and `hands-on` of the whole.
pub(super) fn facts(bath: &Bath, notebook: &Notebook, style: Style, facts: &mut Vec<Fact>) {
    let recipe = &bath.recipe;
    if recipe.steps.is_empty() && recipe.parts.iter().all(|part| part.steps.is_empty()) {
        facts.push(Fact::new("duration", LENGTH, OF_WHOLE).gap("the recipe has no steps"));
        facts.push(Fact::new("hands-on", LENGTH, OF_HANDS).gap("the recipe has no steps"));
        return;
    }
    let room = notebook.settings.room.get().map(|room| room.range.best);
    let mut whole = Fact::new("duration", LENGTH, OF_WHOLE);
    let mut longest: Result<Range, String> = Ok(Range::ZERO);
    let mut hands = Range::ZERO;
    for part in &recipe.parts {
        let timed = step_times(&part.steps, part.water.get(), room);
        hands = hands + hands_on(&part.steps);
        let total = total(&timed);
        if let Some(name) = part.name.get() {
            let name = format!("{}.duration", slug(&name.value));
            let fact = with_steps(
                Fact::new(name.clone(), LENGTH, OF_PART),
                &part.steps,
                &timed,
                style,
            );
            let fact = fact.result(total.clone());
            whole = whole.from(name, fact.text(style));
            facts.push(fact);
        }
        longest = both(longest, total, |a, b| {
            Range::new(a.low.max(b.low), a.best.max(b.best), a.high.max(b.high))
        });
    }
    let common = step_times(&recipe.steps, recipe.water.get(), room);
    hands = hands + hands_on(&recipe.steps);
    whole = with_steps(whole, &recipe.steps, &common, style);
    facts.push(whole.result(both(longest, total(&common), |a, b| a + b)));
    facts.push(Fact::new("hands-on", LENGTH, OF_HANDS).number(hands));
}

fn both(
    a: Result<Range, String>,
    b: Result<Range, String>,
    join: impl Fn(Range, Range) -> Range,
) -> Result<Range, String> {
    Ok(join(a?, b?))
}

fn total(timed: &[Result<Range, String>]) -> Result<Range, String> {
    timed
        .iter()
        .try_fold(Range::ZERO, |total, time| Ok(total + time.clone()?))
}

fn with_steps(mut fact: Fact, steps: &[Step], timed: &[Result<Range, String>], style: Style) -> Fact {
    for (step, time) in steps.iter().zip(timed) {
        if let Ok(time) = time
            && time.high > 0.0
        {
            let shown = show(*time, Dimension::Time, Digits::Significant(2), style);
            let computed = if step.time.is_none() {
                ", computed from its cooling"
            } else {
                ""
            };
            fact = fact.from(step.verb.word(), format!("{shown}{computed}"));
        }
    }
    fact
}

/// The time of each step of a part, or of the whole: as written, for standing to cool computed. `water` is what it begins
/// with. One in which somebody waits must say how long; a movement of the hand counts only where it does.
pub fn step_times(steps: &[Step], water: Option<&Water>, room: Option<f64>) -> Vec<Result<Range, String>> {
    let mut warmth = water.and_then(|water| water.at.as_ref()).map(|at| at.range.best);
    let mut times = Vec::with_capacity(steps.len());
    for step in steps {
        let word = step.verb.word();
        let time = match (&step.time, step.verb) {
            (Some(time), _) => Ok(time.range),
            (None, _) if step.broken => Err(format!("the time of `{word}` cannot be read")),
            (None, Verb::Cool) => cooling(step, warmth, room),
            (None, Verb::Heat | Verb::Steep | Verb::Boil | Verb::Settle | Verb::Rest | Verb::Bake) => {
                Err(format!("`{word}` does not say how long"))
            }
            (None, _) => Ok(Range::ZERO),
        };
        times.push(time);
        warmth = match step.verb {
            Verb::Boil => Some(100.0),
            Verb::Heat | Verb::Cool => step.temperature.as_ref().map(|to| to.range.best).or(warmth),
            _ => step.at.get().map(|at| at.range.best).or(warmth),
        };
    }
    times
}

/// Standing to cool, by Newton's law: the rate from the step's own reading, else that of an open vessel.
fn cooling(step: &Step, warmth: Option<f64>, room: Option<f64>) -> Result<Range, String> {
    let Some(target) = &step.temperature else {
        return Err("`cool` does not say to what".to_owned());
    };
    let Some(start) = warmth else {
        return Err(
            "how long `cool` takes depends on how warm it starts: give the water as `500 ml at 90 °C`"
                .to_owned(),
        );
    };
    let Some(room) = room else {
        return Err(
            "how long `cool` takes depends on the room: give `room` in trayside.yaml, or the step a time"
                .to_owned(),
        );
    };
    let celsius = Temperature::from_celsius;
    let rate = match step.reading.get() {
        Some((reading, after)) => {
            let after = Time::from_seconds(after.range.best);
            let standing =
                Standing::from_reading(celsius(start), celsius(room), after, celsius(reading.range.best));
            Range::exact(standing.map_err(|error| error.to_string())?.per_minute)
        }
        None if step.reading.is_broken() => return Err("the reading of `cool` cannot be read".to_owned()),
        None => OPEN_VESSEL,
    };
    let until = |per_minute: f64, target: f64| {
        let standing = Standing {
            start: celsius(start),
            room: celsius(room),
            per_minute,
        };
        standing
            .until(celsius(target))
            .map(Time::seconds)
            .map_err(|error| format!("`cool`: {error}"))
    };
    // The fastest is the quickest rate to the warmest end of the target.
    let quick = until(rate.high, target.range.high)?;
    let slow = until(rate.low, target.range.low)?;
    Ok(Range::new(quick, until(rate.best, target.range.best)?, slow))
}

fn hands_on(steps: &[Step]) -> Range {
    steps
        .iter()
        .filter(|step| step.needs_hands())
        .filter_map(|step| step.time.as_ref())
        .fold(Range::ZERO, |total, time| total + time.range)
}
