//! Test strips, brackets, dodging and burning: even stops, and times that a watch can keep.

use crate::units::scalar::{Stops, Time};

use super::Reciprocity;

/// The shortest additional exposure of a strip that hand and lamp can keep. Common practice, no source.
pub const SHORTEST: Time = Time::from_seconds(1.0);

/// The times of a strip's steps: `T0 · 2^(k s)`, `k` from 0.
///
/// Source: own arithmetic.
pub fn totals(first: Time, step: Stops, count: u32) -> Vec<Time> {
    (0..count)
        .map(|k| first * Stops::new(step.stops() * f64::from(k)).factor())
        .collect()
}

/// The exposures to give one after the other while covering the strip: the first time, then the differences.
///
/// Assumes that exposures add up; a lamp's warming up and many short exposures shift the result. Source: own arithmetic.
pub fn additional(totals: &[Time]) -> Vec<Time> {
    let mut before = Time::ZERO;
    totals
        .iter()
        .map(|total| {
            let step = *total - before;
            before = *total;
            step
        })
        .collect()
}

/// The times of a bracket: `t · 2^(s (k - (n-1)/2))`, `k` from 0. Metered times: apply reciprocity after.
///
/// Source: own arithmetic.
pub fn bracket(centre: Time, step: Stops, frames: u32) -> Vec<Time> {
    let middle = (f64::from(frames) - 1.0) / 2.0;
    (0..frames)
        .map(|k| centre * Stops::new(step.stops() * (f64::from(k) - middle)).factor())
        .collect()
}

/// A bracket around a metered time, each time corrected by itself: a stop more stays a stop more on the paper.
pub fn bracket_with_reciprocity(
    metered: Time,
    step: Stops,
    frames: u32,
    reciprocity: &Reciprocity,
) -> Vec<Time> {
    bracket(metered, step, frames)
        .into_iter()
        .map(|time| reciprocity.corrected(time))
        .collect()
}

/// How long to hold back the light: `t (1 - 2^-s)`. Source: own arithmetic.
pub fn dodge(time: Time, stops: Stops) -> Time {
    time * (1.0 - libm::exp2(-stops.stops()))
}

/// How long to add light: `t (2^s - 1)`. Source: own arithmetic.
pub fn burn(time: Time, stops: Stops) -> Time {
    time * (stops.factor() - 1.0)
}

/// A time that a watch can keep: to 0.1 s below 10 s, 0.5 s below a minute, else whole seconds.
///
/// A time above zero never becomes zero. Common practice, no source.
pub fn rounded(time: Time) -> Time {
    let seconds = time.seconds();
    let grain = if seconds < 10.0 {
        0.1
    } else if seconds < 60.0 {
        0.5
    } else {
        1.0
    };
    let counts = 1.0 / grain;
    let rounded = (seconds * counts).round() / counts;
    if rounded == 0.0 && seconds > 0.0 {
        return Time::from_seconds(grain);
    }
    Time::from_seconds(rounded)
}

/// The stops by which a rounded time is off, positive for too much light. Source: own arithmetic.
pub fn rounding_error(exact: Time, rounded: Time) -> Stops {
    Stops::from_factor(rounded / exact)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seconds(value: f64) -> Time {
        Time::from_seconds(value)
    }

    #[test]
    fn additional_exposures_add_up_to_the_total() {
        let all = totals(seconds(5.0), Stops::new(1.0 / 3.0), 7);
        let sum: Time = additional(&all).into_iter().sum();
        assert!((sum - all[6]).seconds().abs() < 1e-9);
        assert!(totals(seconds(5.0), Stops::new(1.0), 0).is_empty());
    }

    #[test]
    fn a_bracket_of_one_is_its_centre() {
        assert_eq!(bracket(seconds(30.0), Stops::new(1.0), 1), vec![seconds(30.0)]);
        assert!(bracket(seconds(30.0), Stops::new(1.0), 0).is_empty());
    }

    #[test]
    fn metered_stops_are_wider_in_time() {
        let paper = Reciprocity::power(1.3, seconds(1.0)).unwrap();
        let times = bracket_with_reciprocity(seconds(30.0), Stops::new(1.0), 3, &paper);
        assert!((Stops::from_factor(times[2] / times[1]).stops() - 1.3).abs() < 1e-12);
    }

    #[test]
    fn times_are_rounded_to_what_a_watch_shows() {
        assert_eq!(rounded(seconds(6.299)), seconds(6.3));
        assert_eq!(rounded(seconds(12.6)), seconds(12.5));
        assert_eq!(rounded(seconds(136.4)), seconds(136.0));
        assert_eq!(rounded(seconds(0.02)), seconds(0.1));
        let error = rounding_error(seconds(12.599), seconds(12.5));
        assert!(error.stops() < 0.0 && error.stops() > -0.02);
    }
}
