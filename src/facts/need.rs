//! How long a sheet needs: by the log where that tells, else by the paper's own figures.

use crate::optics::fit::EIGHTY_PERCENT;
use crate::units::Range;

use super::learn::Lesson;
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
}
