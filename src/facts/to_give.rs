//! The time to give a sheet whose time was not written: what its paper needs in the light at the opening, and following the
//! sun from there.

use crate::units::Range;

use super::follow::{self, Followed};
use super::light::Sunlight;
use super::need::Need;

/// Longer than any sheet was ever left in a camera to be developed, in seconds. Common practice, no source.
const OVER_A_YEAR: f64 = 366.0 * 86_400.0;

/// From this on it is said what following the sun makes of a time, in stops: less does not show. Own choice.
const MOVED: f64 = 0.05;

/// A time to give.
pub(super) struct ToGive<'n> {
    /// What it was computed with.
    pub(super) need: Need<'n>,
    /// The metered time at index 1, as a binary logarithm of seconds.
    pub(super) x: Range,
    /// What the light at the opening would take, in seconds.
    pub(super) still: Range,
    followed: Option<Followed>,
    /// In seconds, or why there is none.
    pub(super) time: Result<Range, String>,
}

impl<'n> ToGive<'n> {
    pub(super) fn of(need: Need<'n>, x: Range, sunlight: Option<&Sunlight>) -> Self {
        let still = need.range(x);
        let followed = sunlight.map(|sunlight| follow::until_full(sunlight, &need, x));
        let (followed, time) = match followed {
            None => (None, Ok(still)),
            Some(Ok(followed)) => {
                let time = followed.time;
                (Some(followed), Ok(time))
            }
            Some(Err(why)) => (None, Err(why.to_owned())),
        };
        let time = match time {
            Ok(range) if range.best > OVER_A_YEAR => {
                Err("it would take over a year: look at the light and its sign".to_owned())
            }
            time => time,
        };
        Self {
            need,
            x,
            still,
            followed,
            time,
        }
    }

    /// The stops by which the sun's way changes the time, where that shows.
    pub(super) fn moved(&self) -> Option<f64> {
        let followed = self.followed.as_ref()?;
        let stops = libm::log2(followed.time.best / self.still.best);
        (libm::fabs(stops) >= MOVED).then_some(stops)
    }

    /// Whether the longest time is when the sun goes down.
    pub(super) fn until_sunset(&self) -> bool {
        self.followed
            .as_ref()
            .is_some_and(|followed| followed.until_sunset)
    }
}
