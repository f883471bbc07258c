//! Which fit a log allows, and the fit.

use super::entry::Entry;
use super::posterior::{Posterior, Prior};
use super::screen::screen;
use super::straight::{Line, huber};

/// Below this many exposures the prior speaks alone.
const FEWEST: usize = 3;
/// From this many on a robust line is drawn beside the posterior.
const ENOUGH: usize = 6;
/// Below this many stops between lights the exponent stays at its prior mean.
const SPAN: f64 = 3.0;
/// A camera needs this many exposures for an offset of its own.
const PER_CAMERA: usize = 3;

/// What the log could tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Fewer than three exposures: what is known of paper in general.
    Prior,
    /// Lights within three stops of each other: the speed alone.
    SpeedOnly,
    /// Speed and exponent.
    Both,
}

/// A paper as the log shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// What the log could tell.
    pub method: Method,
    /// Parameters and covariance.
    pub posterior: Posterior,
    /// A line with Huber's weights through the kept exposures, from six on: a check, not the result.
    pub robust: Option<Line>,
    /// Places of the exposures that were used.
    pub used: Vec<usize>,
    /// Places of the exposures that were set aside as strange.
    pub aside: Vec<usize>,
    /// Stops between the dimmest and the brightest light used.
    pub span: f64,
    /// The prior.
    pub prior: Prior,
}

impl Fit {
    /// Whether the exponent lies outside 1 to 2, where something else must be wrong.
    pub fn exponent_is_strange(&self) -> bool {
        !(1.0..=2.0).contains(&self.posterior.line.exponent)
    }
}

/// Fits a log.
///
/// Fewer than three exposures: the prior alone. Lights within three stops: the speed alone. Else both; with an offset for
/// each camera that has three exposures where at least two have. Strange exposures are set aside first, see
/// [`leave_one_out`](super::leave_one_out). Source: own choice, tested by simulation.
pub fn fit(entries: &[Entry], prior: &Prior) -> Fit {
    let alone = |used, aside| Fit {
        method: Method::Prior,
        posterior: Posterior::prior(prior),
        robust: None,
        used,
        aside,
        span: 0.0,
        prior: *prior,
    };
    if entries.len() < FEWEST {
        return alone(Vec::new(), Vec::new());
    }
    let (used, aside) = screen(entries, prior);
    let kept: Vec<Entry> = used.iter().filter_map(|at| entries.get(*at).copied()).collect();
    let span = span(&kept);
    let (method, posterior) = if span < SPAN {
        (Method::SpeedOnly, Posterior::speed_only(&kept, prior))
    } else {
        let cameras = cameras(&kept);
        (Method::Both, Posterior::most_probable(&kept, &cameras, prior))
    };
    let Some(posterior) = posterior else {
        return alone(Vec::new(), aside);
    };
    Fit {
        method,
        posterior,
        robust: (kept.len() >= ENOUGH).then(|| huber(&kept)).flatten(),
        used,
        aside,
        span,
        prior: *prior,
    }
}

fn span(entries: &[Entry]) -> f64 {
    let low = entries.iter().map(|e| e.x).fold(f64::INFINITY, f64::min);
    let high = entries.iter().map(|e| e.x).fold(f64::NEG_INFINITY, f64::max);
    (high - low).max(0.0)
}

/// The cameras that get an offset, in order.
fn cameras(entries: &[Entry]) -> Vec<usize> {
    let mut all: Vec<usize> = entries.iter().map(|e| e.camera).collect();
    all.sort_unstable();
    let mut often: Vec<usize> = all
        .chunk_by(|a, b| a == b)
        .filter(|same| same.len() >= PER_CAMERA)
        .filter_map(|same| same.first().copied())
        .collect();
    if often.len() < 2 {
        often.clear();
    }
    often
}

#[cfg(test)]
mod tests {
    use super::*;

    fn log(xs: &[f64]) -> Vec<Entry> {
        xs.iter()
            .map(|&x| Entry {
                x,
                y: 1.3 * (x - 2.0),
                camera: 0,
            })
            .collect()
    }

    #[test]
    fn the_log_decides_the_method() {
        let prior = Prior::paper();
        assert_eq!(fit(&log(&[8.0, 12.0]), &prior).method, Method::Prior);
        assert_eq!(fit(&log(&[8.0, 9.0, 10.0]), &prior).method, Method::SpeedOnly);
        let both = fit(&log(&[8.0, 9.0, 10.0, 11.0, 12.0, 13.0]), &prior);
        assert_eq!(both.method, Method::Both);
        assert!(both.robust.is_some() && both.aside.is_empty() && !both.exponent_is_strange());
    }

    #[test]
    fn a_slip_of_the_pen_is_set_aside() {
        let mut entries = log(&[8.0, 9.0, 10.0, 11.0, 12.0, 13.0]);
        entries[4].y += 5.0;
        let fitted = fit(&entries, &Prior::paper());
        assert_eq!(fitted.aside, vec![4]);
        assert_eq!(fitted.used, vec![0, 1, 2, 3, 5]);
    }

    #[test]
    fn offsets_need_two_cameras() {
        let mut entries = log(&[8.0, 9.0, 10.0, 11.0, 12.0, 13.0]);
        assert!(fit(&entries, &Prior::paper()).posterior.offsets.is_empty());
        for entry in entries.iter_mut().skip(3) {
            entry.camera = 7;
        }
        let fitted = fit(&entries, &Prior::paper());
        assert_eq!(
            fitted.posterior.offsets.iter().map(|o| o.0).collect::<Vec<_>>(),
            [0, 7]
        );
    }
}
