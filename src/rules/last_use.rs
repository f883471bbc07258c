//! When a session used a bath last: as it was noted, and as its sheets must have queued.

use jiff::{SignedDuration, Timestamp, ZonedDateTime};

use crate::facts::{load, stated_time};
use crate::notebook::{Moment, Session};
use crate::units::Range;

use super::context::Context;

/// When the last sheet went into a bath: the last event at it, else the beginning.
pub(super) fn last_use(session: &Session, recipe: &str) -> Option<Timestamp> {
    let start = &session.when.get()?;
    let events = session.events.iter().filter(|event| {
        let step = event.step.get();
        step.is_some_and(|step| step.value == recipe)
    });
    let last = events
        .filter_map(|event| moment(&start.at, &event.at.get()?.value))
        .max();
    match last {
        Some(last) => Some(last),
        None => start.timed.then(|| start.at.timestamp()),
    }
}

/// The instant of an event. A time of day before the beginning is one after midnight.
fn moment(start: &ZonedDateTime, moment: &Moment) -> Option<Timestamp> {
    match moment {
        Moment::Date(when) => Some(when.at.timestamp()),
        Moment::After(amount) => {
            let after = SignedDuration::try_from_secs_f64(amount.range.best).ok()?;
            start.timestamp().checked_add(after).ok()
        }
        Moment::Clock(clock) => {
            let same_day = start.with().time(*clock).build().ok()?;
            let later = if same_day.timestamp() < start.timestamp() {
                same_day.checked_add(SignedDuration::from_hours(24)).ok()?
            } else {
                same_day
            };
            Some(later.timestamp())
        }
    }
}

/// The sheets of a session, and how long after the beginning the last of them goes into a bath at the soonest, in seconds:
/// sheets of which a tray holds so many wait for the slowest tray on their way. A tray holds one where nothing is written.
///
/// None where only one round is needed, where the line is not known, or where it is noted of every sheet
/// when it went in.
pub(super) fn last_in_queue(context: &Context<'_>, session: &Session, recipe: &str) -> Option<(u32, Range)> {
    let load = load(context.notebook, session);
    let sheets = load.gone.sheets;
    let noted = |sheet: &str| {
        session.events.iter().any(|event| {
            let here = event.step.get().is_some_and(|step| step.value == recipe);
            here && event.at.get().is_some() && event.sheet.get().is_some_and(|one| one.value == sheet)
        })
    };
    if session.incomplete || sheets == load.listed && session.sheets.iter().all(|sheet| noted(&sheet.value)) {
        return None;
    }
    let (_, process) = context.notebook.process(&session.process.get()?.value)?;
    let is_it = |id: Option<&str>| id == Some(recipe);
    let at = process
        .steps
        .iter()
        .position(|step| is_it(step.bath.get().map(|bath| bath.value.as_str())))?;
    let mut longest = Range::ZERO;
    for step in process.steps.iter().take(at + 1) {
        let id = step.bath.get().map(|bath| bath.value.as_str());
        let real = session
            .times
            .iter()
            .find(|(name, _)| Some(name.value.as_str()) == id);
        let stay = real.map(|(_, time)| time.range).or_else(|| {
            let bath = id.and_then(|id| context.facts.baths.get(id));
            stated_time(step, bath).map(|time| time.range)
        });
        let places = step.places.get().map_or(1, |places| places.value.max(1));
        let rounds = f64::from(sheets.saturating_sub(1) / places);
        // A rinse that says no time is over at once; so is what the eye ends, as far as is known.
        let wait = stay.unwrap_or(Range::ZERO).scale(rounds);
        longest = Range::new(
            longest.low.max(wait.low),
            longest.best.max(wait.best),
            longest.high.max(wait.high),
        );
    }
    (longest.best > 0.0).then_some((sheets, longest))
}
