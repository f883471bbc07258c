//! How long a sheet needs: by the log where that tells, else by the paper's own figures.

use crate::optics::ev;
use crate::optics::fit::EIGHTY_PERCENT;
use crate::units::Range;
use crate::units::scalar::{Illuminance, Time};

use super::learn::Lesson;
use super::light::Sunlight;
use super::paper::Figures;

/// How long a sheet needs, from the metered time at index 1.
pub(super) enum Need<'l> {
    /// By the log.
    Log {
        lesson: Lesson<'l>,
        camera: Option<usize>,
    },
    /// By what the paper's block says.
    Figures(Figures),
}

impl Need<'_> {
    /// The best time in seconds.
    pub(super) fn at(&self, x: f64) -> f64 {
        match self {
            Self::Log { lesson, camera } => lesson.fit.predict_at(x, *camera).time().seconds(),
            Self::Figures(figures) => {
                let metered = libm::exp2(x) / figures.speed.best;
                figures.corrected(Range::exact(metered)).best
            }
        }
    }

    /// The time with its interval. What is unsure of the light adds to what is unsure of the paper as errors do.
    pub(super) fn range(&self, x: Range) -> Range {
        match self {
            Self::Log { lesson, camera } => {
                let best = lesson.fit.predict_at(x.best, *camera);
                let own = EIGHTY_PERCENT * best.sd;
                let to = |end: f64| {
                    let light = lesson.fit.predict_at(end, *camera).log2_time - best.log2_time;
                    libm::sqrt(light * light + own * own)
                };
                Range::new(
                    libm::exp2(best.log2_time - to(x.low)),
                    libm::exp2(best.log2_time),
                    libm::exp2(best.log2_time + to(x.high)),
                )
            }
            Self::Figures(figures) => {
                let speed = figures.speed;
                figures.corrected(Range::new(
                    libm::exp2(x.low) / speed.high,
                    libm::exp2(x.best) / speed.best,
                    libm::exp2(x.high) / speed.low,
                ))
            }
        }
    }

    /// The time in a light that has moved from the sun's at the opening, where the metered time was `x`.
    pub(super) fn in_light(&self, light: Illuminance, x: f64, sunlight: &Sunlight) -> Time {
        let now = ev::from_lux(light, ev::Receptor::default()).value();
        let opening = sunlight
            .altitude(0.0)
            .map_or(now, |altitude| sunlight.value(altitude));
        Time::from_seconds(self.at(x + opening - now))
    }
}
