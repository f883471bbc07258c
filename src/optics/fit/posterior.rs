//! What prior knowledge and a log together say: the most probable paper and the covariance around it.

use super::entry::Entry;
use super::linear;
use super::straight::Line;

/// What is known of a paper before its log.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prior {
    /// Mean of `log2 EI`.
    pub log2_speed: f64,
    /// Its standard deviation, in stops.
    pub log2_speed_sd: f64,
    /// Mean of the exponent.
    pub exponent: f64,
    /// Its standard deviation.
    pub exponent_sd: f64,
    /// Standard deviation of one judged exposure, in stops of time.
    pub noise: f64,
    /// Standard deviation of what one camera differs by, in stops.
    pub camera_sd: f64,
}

impl Prior {
    /// Paper of which nothing is known: index 6 within a stop, exponent 1.2 ± 0.15, a third of a stop of noise.
    ///
    /// Common practice, no source. Cameras differ by 0.3 stop (own estimate: 10 % on the hole).
    pub fn paper() -> Self {
        Self {
            log2_speed: libm::log2(6.0),
            log2_speed_sd: 1.0,
            exponent: 1.2,
            exponent_sd: 0.15,
            noise: 0.33,
            camera_sd: 0.3,
        }
    }

    /// The same for paper whose index is believed to be near `speed`, which must be above zero.
    #[must_use]
    pub fn around(self, speed: f64) -> Self {
        Self {
            log2_speed: libm::log2(speed),
            ..self
        }
    }
}

impl Default for Prior {
    fn default() -> Self {
        Self::paper()
    }
}

/// The most probable parameters with their covariance.
///
/// Order: exponent, `log2 EI`, then one offset for each camera that has one.
#[derive(Debug, Clone, PartialEq)]
pub struct Posterior {
    /// Exponent and speed.
    pub line: Line,
    /// Cameras that have an offset of their own, with it in stops; positive where the camera is faster.
    pub offsets: Vec<(usize, f64)>,
    /// The covariance of all parameters.
    pub covariance: Vec<Vec<f64>>,
}

impl Posterior {
    /// The prior alone.
    pub fn prior(prior: &Prior) -> Self {
        Self {
            line: Line {
                exponent: prior.exponent,
                log2_speed: prior.log2_speed,
            },
            offsets: Vec::new(),
            covariance: vec![
                vec![prior.exponent_sd * prior.exponent_sd, 0.0],
                vec![0.0, prior.log2_speed_sd * prior.log2_speed_sd],
            ],
        }
    }

    /// The most probable paper: least squares on residuals over the noise and on each parameter's distance from its prior.
    ///
    /// Gauss and Newton's method; Laplace's covariance `(JᵀJ)⁻¹`. `cameras` lists the cameras that get an offset. Nothing
    /// where numbers are not finite. Source: own derivation from normal priors and noise.
    pub fn most_probable(entries: &[Entry], cameras: &[usize], prior: &Prior) -> Option<Self> {
        let mut theta = vec![prior.exponent, prior.log2_speed];
        theta.resize(2 + cameras.len(), 0.0);
        let mut cost = cost(entries, cameras, prior, &theta)?;
        let mut damping = 0.0;
        for _ in 0..200 {
            let (mut normal, right) = normal_equations(entries, cameras, prior, &theta)?;
            for (i, row) in normal.iter_mut().enumerate() {
                if let Some(diagonal) = row.get_mut(i) {
                    *diagonal *= 1.0 + damping;
                }
            }
            let step = linear::solve(&normal, &right)?;
            let next: Vec<f64> = theta.iter().zip(&step).map(|(t, s)| t + s).collect();
            let size = step.iter().fold(0.0_f64, |most, s| most.max(s.abs()));
            match self::cost(entries, cameras, prior, &next) {
                Some(better) if better <= cost => {
                    theta = next;
                    cost = better;
                    damping = if damping < 1e-6 { 0.0 } else { damping / 10.0 };
                }
                _ => damping = if damping == 0.0 { 1e-3 } else { damping * 10.0 },
            }
            if size < 1e-12 || damping > 1e12 {
                break;
            }
        }
        let (normal, _) = normal_equations(entries, cameras, prior, &theta)?;
        Self::from_parameters(&theta, cameras, linear::inverse(&normal)?)
    }

    /// The most probable speed where the log cannot tell the exponent: it stays at its prior mean, with its prior spread.
    ///
    /// The covariance follows the speed as it moves with the exponent. Nothing where numbers are not finite. Source: own
    /// derivation.
    pub fn speed_only(entries: &[Entry], prior: &Prior) -> Option<Self> {
        let precision = 1.0 / (prior.noise * prior.noise);
        let prior_precision = 1.0 / (prior.log2_speed_sd * prior.log2_speed_sd);
        let n = entries.len() as f64;
        let speed_at = |p: f64| {
            let data: f64 = entries.iter().map(|e| p * (p * e.x - e.y)).sum();
            (data * precision + prior.log2_speed * prior_precision)
                / (n * p * p * precision + prior_precision)
        };
        let p = prior.exponent;
        let step = 1e-4;
        let slope = (speed_at(p + step) - speed_at(p - step)) / (2.0 * step);
        let var_p = prior.exponent_sd * prior.exponent_sd;
        let var_l = 1.0 / (n * p * p * precision + prior_precision);
        let covariance = vec![
            vec![var_p, slope * var_p],
            vec![slope * var_p, var_l + slope * slope * var_p],
        ];
        Self::from_parameters(&[p, speed_at(p)], &[], covariance)
    }

    fn from_parameters(theta: &[f64], cameras: &[usize], covariance: Vec<Vec<f64>>) -> Option<Self> {
        let [exponent, log2_speed, offsets @ ..] = theta else {
            return None;
        };
        theta.iter().all(|t| t.is_finite()).then(|| Self {
            line: Line {
                exponent: *exponent,
                log2_speed: *log2_speed,
            },
            offsets: cameras.iter().copied().zip(offsets.iter().copied()).collect(),
            covariance,
        })
    }

    /// Standard deviation of the exponent.
    pub fn exponent_sd(&self) -> f64 {
        self.sd(0)
    }

    /// Standard deviation of `log2 EI`.
    pub fn log2_speed_sd(&self) -> f64 {
        self.sd(1)
    }

    fn sd(&self, at: usize) -> f64 {
        let variance = self.covariance.get(at).and_then(|row| row.get(at));
        libm::sqrt(variance.copied().unwrap_or(f64::NAN))
    }

    /// Mean and variance of `log2 t` at `x` for a camera, without the noise of one exposure.
    pub(super) fn at(&self, x: f64, camera: Option<usize>) -> (f64, f64) {
        let (above, p) = self.above(x, camera);
        let by_exponent = if above > 0.0 { above } else { 0.0 };
        (p * above, self.variance(by_exponent, p, camera))
    }

    /// Mean and variance of the logarithm of what a meter set to the learnt speed says at `x` for a camera.
    pub(super) fn metered_at(&self, x: f64, camera: Option<usize>) -> (f64, f64) {
        (self.above(x, camera).0, self.variance(0.0, 1.0, camera))
    }

    /// Mean and variance of the stops that reciprocity takes at `x` for a camera: the difference of the two others.
    pub(super) fn lost_at(&self, x: f64, camera: Option<usize>) -> (f64, f64) {
        let (above, p) = self.above(x, camera);
        let by_exponent = if above > 0.0 { above } else { 0.0 };
        ((p - 1.0) * above, self.variance(by_exponent, p - 1.0, camera))
    }

    /// The stops above one second at the learnt speed, and the exponent there: below one second there is no reciprocity.
    fn above(&self, x: f64, camera: Option<usize>) -> (f64, f64) {
        let own = self.own(camera);
        let offset = own.and_then(|at| self.offsets.get(at)).map_or(0.0, |(_, o)| *o);
        let above = x - self.line.log2_speed - offset;
        (above, if above > 0.0 { self.line.exponent } else { 1.0 })
    }

    fn own(&self, camera: Option<usize>) -> Option<usize> {
        self.offsets.iter().position(|(id, _)| Some(*id) == camera)
    }

    /// `gᵀ C g`, where `g` is what a quantity gains with the exponent, and loses with speed and offset.
    fn variance(&self, by_exponent: f64, by_speed: f64, camera: Option<usize>) -> f64 {
        let own = self.own(camera).map(|own| own + 2);
        let mut gradient = vec![0.0; self.covariance.len()];
        for (at, value) in [(Some(0), by_exponent), (Some(1), -by_speed), (own, -by_speed)] {
            if let Some(place) = at.and_then(|at| gradient.get_mut(at)) {
                *place = value;
            }
        }
        self.covariance
            .iter()
            .zip(&gradient)
            .map(|(row, gi)| gi * row.iter().zip(&gradient).map(|(c, gj)| c * gj).sum::<f64>())
            .sum()
    }
}

fn offset_index(entry: &Entry, cameras: &[usize]) -> Option<usize> {
    cameras.iter().position(|id| *id == entry.camera)
}

/// The residual of an entry over the noise, and its gradient's three parts.
fn residual(entry: &Entry, cameras: &[usize], prior: &Prior, theta: &[f64]) -> Option<(f64, f64, f64)> {
    let (p, l) = (*theta.first()?, *theta.get(1)?);
    let offset = match offset_index(entry, cameras) {
        Some(at) => *theta.get(at + 2)?,
        None => 0.0,
    };
    let above = entry.x - l - offset;
    let r = (entry.y - p * above) / prior.noise;
    Some((r, -above / prior.noise, p / prior.noise))
}

fn prior_rows(cameras: &[usize], prior: &Prior) -> Vec<(f64, f64)> {
    let mut rows = vec![
        (prior.exponent, prior.exponent_sd),
        (prior.log2_speed, prior.log2_speed_sd),
    ];
    rows.extend(cameras.iter().map(|_| (0.0, prior.camera_sd)));
    rows
}

fn cost(entries: &[Entry], cameras: &[usize], prior: &Prior, theta: &[f64]) -> Option<f64> {
    let mut sum = 0.0;
    for entry in entries {
        let (r, _, _) = residual(entry, cameras, prior, theta)?;
        sum += r * r;
    }
    for ((mean, sd), value) in prior_rows(cameras, prior).iter().zip(theta) {
        let r = (value - mean) / sd;
        sum += r * r;
    }
    sum.is_finite().then_some(sum)
}

/// `JᵀJ` and `-Jᵀr`.
fn normal_equations(
    entries: &[Entry],
    cameras: &[usize],
    prior: &Prior,
    theta: &[f64],
) -> Option<(Vec<Vec<f64>>, Vec<f64>)> {
    let n = theta.len();
    let mut normal = vec![vec![0.0; n]; n];
    let mut right = vec![0.0; n];
    let mut add = |gradient: &[(usize, f64)], r: f64| -> Option<()> {
        for (i, gi) in gradient {
            *right.get_mut(*i)? -= gi * r;
            for (j, gj) in gradient {
                *normal.get_mut(*i)?.get_mut(*j)? += gi * gj;
            }
        }
        Some(())
    };
    for entry in entries {
        let (r, by_exponent, by_speed) = residual(entry, cameras, prior, theta)?;
        let mut gradient = vec![(0, by_exponent), (1, by_speed)];
        if let Some(at) = offset_index(entry, cameras) {
            gradient.push((at + 2, by_speed));
        }
        add(&gradient, r)?;
    }
    for (i, ((mean, sd), value)) in prior_rows(cameras, prior).iter().zip(theta).enumerate() {
        add(&[(i, 1.0 / sd)], (value - mean) / sd)?;
    }
    Some((normal, right))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_empty_log_leaves_the_prior() {
        let prior = Prior::paper();
        let from_nothing = Posterior::most_probable(&[], &[], &prior).unwrap();
        assert_eq!(from_nothing.line, Posterior::prior(&prior).line);
        assert!((from_nothing.exponent_sd() - 0.15).abs() < 1e-12);
        assert!((from_nothing.log2_speed_sd() - 1.0).abs() < 1e-12);
        assert_eq!(
            Posterior::speed_only(&[], &prior).unwrap().line,
            from_nothing.line
        );
    }

    #[test]
    fn a_long_log_outweighs_the_prior() {
        let entries: Vec<Entry> = (0..400)
            .map(|i| {
                let x = 6.0 + f64::from(i) / 40.0;
                Entry {
                    x,
                    y: 1.4 * (x - 1.5),
                    camera: 0,
                }
            })
            .collect();
        let posterior = Posterior::most_probable(&entries, &[], &Prior::paper()).unwrap();
        assert!((posterior.line.exponent - 1.4).abs() < 0.005);
        assert!((posterior.line.log2_speed - 1.5).abs() < 0.02);
    }

    #[test]
    fn a_fast_camera_gets_its_offset() {
        let entries: Vec<Entry> = (0..60)
            .map(|i| {
                let x = 6.0 + f64::from(i % 10);
                let camera = usize::from(i % 2 == 0);
                let offset = if camera == 1 { 0.4 } else { 0.0 };
                Entry {
                    x: x + f64::from(i / 10) * 0.1,
                    y: 1.2 * (x + f64::from(i / 10) * 0.1 - 2.5 - offset),
                    camera,
                }
            })
            .collect();
        let posterior = Posterior::most_probable(&entries, &[0, 1], &Prior::paper()).unwrap();
        let [(_, slow), (_, fast)] = posterior.offsets.as_slice() else {
            panic!("two offsets");
        };
        assert!((fast - slow - 0.4).abs() < 0.05, "{slow} {fast}");
    }
}
