//! The time for the next exposure, with the interval it will lie in.

use crate::units::Range;
use crate::units::scalar::{ExposureValue, FNumber, Time};

use super::entry::metered_stops;
use super::log_fit::Fit;

/// Standard deviations either side of the mean that hold 80 % of a normal distribution.
///
/// Source: the normal distribution's 0.9 quantile.
pub const EIGHTY_PERCENT: f64 = 1.281_551_565_545;

/// A predicted time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prediction {
    /// Mean of `log2 t`.
    pub log2_time: f64,
    /// Standard deviation of the next right exposure around it, in stops of time.
    pub sd: f64,
}

impl Prediction {
    /// The single best time.
    pub fn time(self) -> Time {
        Time::from_seconds(libm::exp2(self.log2_time))
    }

    /// The interval in seconds, some standard deviations wide either way, such as [`EIGHTY_PERCENT`].
    pub fn interval(self, deviations: f64) -> Range {
        let at = |z: f64| libm::exp2(self.log2_time + z * self.sd);
        Range::new(at(-deviations), at(0.0), at(deviations))
    }
}

impl Fit {
    /// The time for a light and an f-number, for a camera of the log or for a new one.
    ///
    /// `sd² = gᵀ C g + noise²` with the gradient `g` of the model. Where the log has offsets, a camera without one adds what
    /// cameras differ by. Source: the delta method; tested by simulation.
    pub fn predict(&self, value: ExposureValue, n: FNumber, camera: Option<usize>) -> Prediction {
        self.predict_at(metered_stops(value, n), camera)
    }

    /// [`Fit::predict`] from the logarithm to base 2 of the metered time in seconds at index 1.
    pub fn predict_at(&self, x: f64, camera: Option<usize>) -> Prediction {
        let (log2_time, model) = self.posterior.at(x, camera);
        let offsets = &self.posterior.offsets;
        let known = offsets.is_empty() || offsets.iter().any(|(id, _)| Some(*id) == camera);
        let p = self.posterior.line.exponent;
        let unknown = if known { 0.0 } else { p * self.prior.camera_sd };
        let noise = self.prior.noise;
        Prediction {
            log2_time,
            sd: libm::sqrt(model + unknown * unknown + noise * noise),
        }
    }
    /// What a meter set to the learnt speed says, in seconds, where the metered time at index 1 is `x` as a binary
    /// logarithm: the interval is [`EIGHTY_PERCENT`] and holds what is unsure of `x`. Source: see [`Fit::predict`].
    pub fn metered_at(&self, x: Range, camera: Option<usize>) -> Range {
        let (best, variance) = self.posterior.metered_at(x.best, camera);
        let own = EIGHTY_PERCENT * libm::sqrt(variance);
        Range::new(
            libm::exp2(best - libm::hypot(own, x.best - x.low)),
            libm::exp2(best),
            libm::exp2(best + libm::hypot(own, x.high - x.best)),
        )
    }

    /// The stops that reciprocity takes there: the time of [`Fit::predict_at`] over that of [`Fit::metered_at`].
    pub fn lost_at(&self, x: Range, camera: Option<usize>) -> Range {
        let (best, variance) = self.posterior.lost_at(x.best, camera);
        let own = EIGHTY_PERCENT * libm::sqrt(variance);
        let to = |end: f64| libm::hypot(own, self.posterior.lost_at(end, camera).0 - best);
        Range::new(best - to(x.low), best, best + to(x.high))
    }
}
