//! When a session used a bath last.

use jiff::{SignedDuration, Timestamp, ZonedDateTime};

use crate::notebook::{Moment, Session};

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
