//! One exposure of a log, as the fit sees it.

use crate::units::scalar::{ExposureValue, FNumber, Speed, Stops, Time};

use super::super::ev;

/// An exposure that was judged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// `x`: the logarithm to base 2 of the metered time in seconds at index 1, less the stops the sheet still needs.
    pub x: f64,
    /// `y`: the logarithm to base 2 of the time in seconds that was given.
    pub y: f64,
    /// Which camera, as numbered by the caller.
    pub camera: usize,
}

/// `x` of a light and an f-number: `log2(N² · 100/2^EV)`, the logarithm of the metered time in seconds at index 1.
///
/// f-number above zero. Source: the definition of the exposure value (ISO 2720:1974).
pub fn metered_stops(value: ExposureValue, n: FNumber) -> f64 {
    libm::log2(ev::metered_time(value, n, Speed::new(1.0)).seconds())
}

impl Entry {
    /// An entry from what the log holds; nothing where a number is not finite or the time is not above one second.
    ///
    /// A sheet that needs `s` stops more would have been right in a light `s` stops stronger, so `x` is lowered by `s`: that
    /// lowers the estimated speed. Source: own derivation; a verdict means effective exposure, before reciprocity.
    pub fn new(value: ExposureValue, n: FNumber, time: Time, needs: Stops, camera: usize) -> Option<Self> {
        let x = metered_stops(value, n) - needs.stops();
        let y = libm::log2(time.seconds());
        (x.is_finite() && y.is_finite() && y > 0.0).then_some(Self { x, y, camera })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thin_sheet_means_slower_paper() {
        let entry = |needs| {
            Entry::new(
                ExposureValue::new(12.0),
                FNumber::new(250.0),
                Time::from_seconds(60.0),
                Stops::new(needs),
                0,
            )
            .unwrap()
        };
        // With p = 1, log2 EI = x - y.
        let speed = |entry: Entry| entry.x - entry.y;
        assert!((speed(entry(0.0)) - speed(entry(1.0)) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn short_times_are_outside_the_model() {
        let value = ExposureValue::new(12.0);
        let short = Entry::new(value, FNumber::new(16.0), Time::from_seconds(0.5), Stops::ZERO, 0);
        assert_eq!(short, None);
    }
}
