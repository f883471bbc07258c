//! The characteristic curve of paper: density against the logarithm of exposure.

/// A logistic curve: `D = dmin + (dmax - dmin)/(1 + exp(-k (log H - x0)))`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Curve {
    /// Density of the unexposed paper.
    pub dmin: f64,
    /// Highest density.
    pub dmax: f64,
    /// Steepness, per decade of exposure.
    pub k: f64,
    /// `log10 H` at half way.
    pub x0: f64,
}

/// The density above dmin at which the toe begins. Source: ISO 6846:1992.
pub const TOE: f64 = 0.04;

/// The share of the net density range at which the shoulder begins. Source: ISO 6846:1992.
pub const SHOULDER: f64 = 0.9;

/// The density above dmin that sets the speed. ISO 6846:1992; from memory, unverified.
pub const SPEED_POINT: f64 = 0.60;

impl Curve {
    /// The density at a `log10 H`. Source: own choice of a logistic curve.
    pub fn density(self, log_h: f64) -> f64 {
        self.dmin + (self.dmax - self.dmin) * logistic(self.k * (log_h - self.x0))
    }

    /// The `log10 H` that gives a density; nothing outside the curve's own range.
    pub fn log_exposure(self, density: f64) -> Option<f64> {
        let share = (density - self.dmin) / (self.dmax - self.dmin);
        (share > 0.0 && share < 1.0).then(|| self.x0 - libm::log(1.0 / share - 1.0) / self.k)
    }

    /// The slope at half way: `k (dmax - dmin)/4`. Source: the derivative of the curve.
    pub fn middle_slope(self) -> f64 {
        self.k * (self.dmax - self.dmin) / 4.0
    }

    /// `log10 H` of the toe point `T`, see [`TOE`].
    pub fn toe(self) -> Option<f64> {
        self.log_exposure(self.dmin + TOE)
    }

    /// `log10 H` of the shoulder point `S`, see [`SHOULDER`].
    pub fn shoulder(self) -> Option<f64> {
        self.log_exposure(self.dmin + SHOULDER * (self.dmax - self.dmin))
    }

    /// `log10 H` of the speed point `M`, see [`SPEED_POINT`].
    pub fn speed_point(self) -> Option<f64> {
        self.log_exposure(self.dmin + SPEED_POINT)
    }

    /// The range of the paper: `100 (log HS - log HT)`, unrounded. Source: ISO 6846:1992.
    pub fn range(self) -> Option<f64> {
        Some(100.0 * (self.shoulder()? - self.toe()?))
    }

    /// The printing speed: `1000/HM`, exposures in lux seconds. ISO 6846:1992; the factor from memory, unverified.
    pub fn speed(self) -> Option<f64> {
        Some(1000.0 / libm::exp10(self.speed_point()?))
    }
}

/// A range rounded to tens, as it is stated. Source: ISO 6846:1992.
pub fn rounded_range(range: f64) -> f64 {
    (range / 10.0).round() * 10.0
}

fn logistic(z: f64) -> f64 {
    1.0 / (1.0 + libm::exp(-z))
}

/// Fits a curve to steps of `log10 H` and density; nothing below five steps or where density does not rise.
///
/// Least squares: for each steepness and place the two densities follow by linear regression, so that only two parameters
/// are searched. Source: Golub and Pereyra 1973, The differentiation of pseudo-inverses and nonlinear least squares problems
/// whose variables separate, SIAM J. Numer. Anal. 10, 413.
pub fn fit(steps: &[(f64, f64)]) -> Option<Curve> {
    if steps.len() < 5 || steps.iter().any(|(x, d)| !x.is_finite() || !d.is_finite()) {
        return None;
    }
    let mut best = start(steps)?;
    let mut found = project(steps, best)?;
    let mut damping = 1e-3;
    for _ in 0..500 {
        let step = 1e-6;
        let along = |[ln_k, x0]: [f64; 2]| project(steps, [best[0] + ln_k, best[1] + x0]);
        let (a, b) = (along([step, 0.0])?, along([0.0, step])?);
        let slopes = |moved: &Projection| -> Vec<f64> {
            let pairs = moved.residuals.iter().zip(&found.residuals);
            pairs.map(|(after, before)| (after - before) / step).collect()
        };
        let (ja, jb) = (slopes(&a), slopes(&b));
        let dot = |p: &[f64], q: &[f64]| p.iter().zip(q).map(|(p, q)| p * q).sum::<f64>();
        let (aa, bb, ab) = (
            dot(&ja, &ja) * (1.0 + damping),
            dot(&jb, &jb) * (1.0 + damping),
            dot(&ja, &jb),
        );
        let (ra, rb) = (dot(&ja, &found.residuals), dot(&jb, &found.residuals));
        let det = aa * bb - ab * ab;
        let move_by = [(-ra * bb + rb * ab) / det, (-rb * aa + ra * ab) / det];
        if !(move_by[0].is_finite() && move_by[1].is_finite()) {
            break;
        }
        let next = [best[0] + move_by[0], best[1] + move_by[1]];
        match project(steps, next) {
            Some(better) if better.square <= found.square => {
                best = next;
                found = better;
                damping = (damping / 10.0).max(1e-12);
            }
            _ => damping *= 10.0,
        }
        if move_by.iter().all(|m| m.abs() < 1e-10) || damping > 1e12 {
            break;
        }
    }
    let [ln_k, x0] = best;
    (found.net > 0.0).then(|| Curve {
        dmin: found.dmin,
        dmax: found.dmin + found.net,
        k: libm::exp(ln_k),
        x0,
    })
}

/// Where the search begins: the middle of the densities and the steepest step.
fn start(steps: &[(f64, f64)]) -> Option<[f64; 2]> {
    let low = steps.iter().map(|s| s.1).fold(f64::INFINITY, f64::min);
    let high = steps.iter().map(|s| s.1).fold(f64::NEG_INFINITY, f64::max);
    let mut sorted = steps.to_vec();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
    if high <= low || sorted.last()?.1 <= sorted.first()?.1 {
        return None;
    }
    let half = f64::midpoint(low, high);
    let x0 = sorted.iter().find(|s| s.1 >= half)?.0;
    let steepest = sorted
        .windows(2)
        .filter_map(|pair| match pair {
            [a, b] if b.0 > a.0 => Some((b.1 - a.1) / (b.0 - a.0)),
            _ => None,
        })
        .fold(0.0, f64::max);
    let k = 4.0 * steepest / (high - low);
    (k > 0.0).then(|| [libm::log(k), x0])
}

struct Projection {
    dmin: f64,
    net: f64,
    residuals: Vec<f64>,
    square: f64,
}

/// The best two densities for a steepness and a place.
fn project(steps: &[(f64, f64)], [ln_k, x0]: [f64; 2]) -> Option<Projection> {
    let k = libm::exp(ln_k);
    let shares: Vec<f64> = steps.iter().map(|(x, _)| logistic(k * (x - x0))).collect();
    let n = steps.len() as f64;
    let mean_s = shares.iter().sum::<f64>() / n;
    let mean_d = steps.iter().map(|s| s.1).sum::<f64>() / n;
    let each = || shares.iter().zip(steps);
    let ss: f64 = each().map(|(s, _)| (s - mean_s) * (s - mean_s)).sum();
    let sd: f64 = each().map(|(s, (_, d))| (s - mean_s) * (d - mean_d)).sum();
    let net = sd / ss;
    if !net.is_finite() {
        return None;
    }
    let dmin = mean_d - net * mean_s;
    let residuals: Vec<f64> = each().map(|(s, (_, d))| d - dmin - net * s).collect();
    let square = residuals.iter().map(|r| r * r).sum();
    Some(Projection {
        dmin,
        net,
        residuals,
        square,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_curve_is_found_again() {
        let truth = Curve {
            dmin: 0.08,
            dmax: 1.9,
            k: 3.7,
            x0: -0.4,
        };
        let steps: Vec<(f64, f64)> = (0..20)
            .map(|i| {
                let x = -2.0 + 0.15 * f64::from(i);
                (x, truth.density(x))
            })
            .collect();
        let found = fit(&steps).unwrap();
        assert!((found.dmin - 0.08).abs() < 1e-6);
        assert!((found.dmax - 1.9).abs() < 1e-6);
        assert!((found.k - 3.7).abs() < 1e-5);
        assert!((found.x0 + 0.4).abs() < 1e-6);
        assert!((found.log_exposure(1.0).unwrap() - truth.log_exposure(1.0).unwrap()).abs() < 1e-6);
    }

    #[test]
    fn no_curve_from_too_little() {
        assert_eq!(fit(&[(0.0, 0.1), (1.0, 2.0)]), None);
        let falling: Vec<(f64, f64)> = (0..9).map(|i| (f64::from(i), 2.0 - 0.1 * f64::from(i))).collect();
        assert_eq!(fit(&falling), None);
    }

    #[test]
    fn ranges_are_stated_in_tens() {
        assert_eq!(rounded_range(137.7), 140.0);
        assert_eq!(rounded_range(163.2), 160.0);
    }
}
