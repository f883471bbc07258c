//! The sun followed over the sky while a sheet is open.

use crate::optics::{changing, ev};
use crate::units::Range;
use crate::units::scalar::{ExposureValue, Illuminance, Time};

use super::light::{SUNSET, Sunlight};
use super::need::Need;

/// How often the sun is looked up, in seconds; between, its altitude goes straight.
const LOOK: f64 = 600.0;

/// No exposure is followed for longer than this, in seconds.
pub(super) const LONGEST: f64 = 86_400.0;

/// The light is looked at for so many times the longest time that its start asks for, and again for so many times that.
const FURTHER: f64 = 4.0;

/// The sun's altitudes from the opening on.
struct Way<'s> {
    sunlight: &'s Sunlight,
    altitudes: Vec<f64>,
}

impl<'s> Way<'s> {
    fn of(sunlight: &'s Sunlight, seconds: f64) -> Self {
        let looks = libm::ceil(seconds / LOOK) as usize + 1;
        let altitudes = (0..=looks)
            .map_while(|look| sunlight.altitude(look as f64 * LOOK))
            .collect();
        Self { sunlight, altitudes }
    }

    /// The exposure value at a time; none where the sun's place is not known.
    fn value(&self, time: Time) -> Option<Range> {
        let at = (time.seconds() / LOOK).max(0.0);
        let before = libm::floor(at) as usize;
        let (from, to) = (self.altitudes.get(before)?, self.altitudes.get(before + 1)?);
        Some(self.sunlight.value(from + (to - from) * (at - before as f64)))
    }

    /// When the sun goes down, in seconds; none where it is up all the time.
    fn sunset(&self) -> Option<f64> {
        self.altitudes
            .windows(2)
            .enumerate()
            .find_map(|(at, pair)| match pair {
                [from, to] if *from >= SUNSET && *to < SUNSET => {
                    Some((at as f64 + (from - SUNSET) / (from - to)) * LOOK)
                }
                _ => None,
            })
    }
}

/// How long until a sheet has one full exposure in the sun.
pub(super) struct Followed {
    /// In seconds.
    pub(super) time: Range,
    /// Whether in the least light that it may be the sun goes down before: then the upper end is when it does.
    pub(super) until_sunset: bool,
}

/// Follows the sun from the opening, where the metered time at index 1 is `x` as a binary logarithm, until the sheet has
/// enough: for each end of the interval by what light and paper are there, as unsure as the light is by then. Else why there
/// is no such time.
pub(super) fn until_full(sunlight: &Sunlight, need: &Need<'_>, x: Range) -> Result<Followed, &'static str> {
    let altitude = sunlight.altitude(0.0).ok_or("the sun's place is not known")?;
    let opening = sunlight.value(altitude);
    let mut reach = need.range(x).high;
    loop {
        reach = (reach * FURTHER).min(LONGEST);
        let way = Way::of(sunlight, reach);
        let sunset = way.sunset().filter(|sunset| *sunset <= reach);
        let end = sunset.unwrap_or(reach);
        let until = |of: fn(Range) -> f64| {
            let needed = |time: Time| {
                let range = way.value(time).map(|now| need.range(moved(x, opening, now)));
                Time::from_seconds(range.map_or(f64::INFINITY, of))
            };
            changing::time_for_one(Time::from_seconds(end), needed).map(Time::seconds)
        };
        let [low, best, high] = [
            until(|range| range.low),
            until(|range| range.best),
            until(|range| range.high),
        ];
        let last = sunset.is_some() || reach >= LONGEST;
        match (low, best, high) {
            (Some(low), Some(best), Some(high)) => {
                return Ok(Followed {
                    time: Range::new(low, best, high),
                    until_sunset: false,
                });
            }
            (Some(low), Some(best), None) if last => {
                return Ok(Followed {
                    time: Range::new(low, best, end),
                    until_sunset: sunset.is_some(),
                });
            }
            _ if sunset.is_some() => return Err("the light goes before the sheet has enough"),
            _ if last => return Err("a day in that sun is not enough"),
            _ => {}
        }
    }
}

/// The metered time, where the light has moved.
fn moved(x: Range, opening: Range, now: Range) -> Range {
    Range::new(
        x.low + opening.high - now.high,
        x.best + opening.best - now.best,
        x.high + opening.low - now.low,
    )
}

/// How many full exposures a sheet gathers in the sun in some time, through dusk, night and dawn.
pub(super) fn gathered(sunlight: &Sunlight, need: &Need<'_>, x: f64, seconds: f64) -> Option<f64> {
    let opening = sunlight.value(sunlight.altitude(0.0)?).best;
    let way = Way::of(sunlight, seconds);
    let light = |time: Time| {
        way.value(time).map_or(Illuminance::ZERO, |value| {
            ev::to_lux(ExposureValue::new(value.best), ev::Receptor::default())
        })
    };
    let needed = |light: Illuminance| {
        let now = ev::from_lux(light, ev::Receptor::default()).value();
        Time::from_seconds(need.at(x + opening - now))
    };
    let gathered = changing::gather(Time::from_seconds(seconds), light, needed);
    gathered.fraction.is_finite().then_some(gathered.fraction)
}
