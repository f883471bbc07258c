//! Straight lines through a log: ordinary, Huber and soft-L1. The product shows the posterior; these check it.

use super::entry::Entry;
use super::posterior::{Posterior, Prior};

/// A straight line read as a paper: `y = p (x - log2 EI)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// The slope, which is the exponent `p`.
    pub exponent: f64,
    /// `log2 EI`, where the line meets zero.
    pub log2_speed: f64,
}

impl Line {
    /// The exposure index, `2^(log2 EI)`.
    pub fn speed(self) -> f64 {
        libm::exp2(self.log2_speed)
    }

    fn new(intercept: f64, slope: f64) -> Option<Self> {
        let log2_speed = -intercept / slope;
        log2_speed.is_finite().then_some(Self {
            exponent: slope,
            log2_speed,
        })
    }
}

/// The ordinary least squares line with its errors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ordinary {
    /// The line.
    pub line: Line,
    /// Standard error of the exponent.
    pub exponent_error: f64,
    /// Standard error of `log2 EI`, by the delta method.
    pub log2_speed_error: f64,
    /// Standard deviation of the residuals, in stops of time.
    pub residual: f64,
}

/// The ordinary least squares line; nothing below three entries or where all lights are the same.
///
/// Variance divisor `n - 2`; the error of `log2 EI = -a/b` takes the gradient `(-1/b, a/b²)` on the covariance of intercept
/// and slope. Source: any textbook of linear regression; own derivation of the gradient.
pub fn ordinary(entries: &[Entry]) -> Option<Ordinary> {
    if entries.len() < 3 {
        return None;
    }
    let ones = vec![1.0; entries.len()];
    let (a, b) = weighted(entries, &ones)?;
    let n = entries.len() as f64;
    let mean = entries.iter().map(|e| e.x).sum::<f64>() / n;
    let sxx: f64 = entries.iter().map(|e| (e.x - mean) * (e.x - mean)).sum();
    let square: f64 = residuals(entries, a, b).iter().map(|r| r * r).sum();
    let variance = square / (n - 2.0);
    let (var_a, var_b) = (variance * (1.0 / n + mean * mean / sxx), variance / sxx);
    let cov = -mean * variance / sxx;
    let (ga, gb) = (-1.0 / b, a / (b * b));
    let log2_variance = ga * ga * var_a + 2.0 * ga * gb * cov + gb * gb * var_b;
    Some(Ordinary {
        line: Line::new(a, b)?,
        exponent_error: libm::sqrt(var_b),
        log2_speed_error: libm::sqrt(log2_variance.max(0.0)),
        residual: libm::sqrt(variance),
    })
}

/// The exponents and indices that every estimator finds, to compare.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimates {
    /// Ordinary least squares.
    pub ordinary: Ordinary,
    /// Huber's weights.
    pub huber: Line,
    /// Soft-L1.
    pub soft_l1: Line,
    /// The posterior, which is what is shown.
    pub posterior: Posterior,
}

impl Estimates {
    /// All estimators over the whole log, nothing set aside; nothing where one of them finds no line.
    pub fn of(entries: &[Entry], prior: &Prior) -> Option<Self> {
        Some(Self {
            ordinary: ordinary(entries)?,
            huber: huber(entries)?,
            soft_l1: soft_l1(entries)?,
            posterior: Posterior::most_probable(entries, &[], prior)?,
        })
    }

    /// Whether one of them finds an exponent outside 1 to 2: one wild time in a light of its own drags them together.
    pub fn exponent_is_strange(&self) -> bool {
        [self.ordinary.line, self.huber, self.soft_l1, self.posterior.line]
            .iter()
            .any(|line| !(1.0..=2.0).contains(&line.exponent))
    }
}

/// How often a line with Huber's weights is drawn at most: with few exposures its scale may shrink without end.
const HUBER_PASSES: usize = 50;

/// How often a soft-L1 line is drawn at most.
const SOFT_PASSES: usize = 500;

/// The line with Huber's weights, tuning 1.345, scale `median |r|/0.6745` about zero recomputed each pass.
///
/// Guards against wild times, not against a wild time in a light of its own. Nothing below three entries. Source: Huber
/// 1964, Robust estimation of a location parameter, Ann. Math. Statist. 35, 73.
pub fn huber(entries: &[Entry]) -> Option<Line> {
    reweighted(entries, HUBER_PASSES, |residuals| {
        let mut sizes: Vec<f64> = residuals.iter().map(|r| r.abs()).collect();
        sizes.sort_by(f64::total_cmp);
        let limit = 1.345 * median(&sizes)? / 0.6745;
        if limit < 1e-12 {
            return None;
        }
        let weight = |r: &f64| {
            if r.abs() <= limit { 1.0 } else { limit / r.abs() }
        };
        Some(residuals.iter().map(weight).collect())
    })
}

/// The line that is least in `2 f² (sqrt(1 + (r/f)²) - 1)`, `f` = 0.3, unscaled.
///
/// Nothing below three entries. Source: the smooth approximation of absolute deviations, as in Triggs et al. 2000, Bundle
/// adjustment, a modern synthesis (title from memory, unverified).
pub fn soft_l1(entries: &[Entry]) -> Option<Line> {
    const SCALE: f64 = 0.3;
    reweighted(entries, SOFT_PASSES, |residuals| {
        let weight = |r: &f64| 1.0 / libm::sqrt(1.0 + (r / SCALE) * (r / SCALE));
        Some(residuals.iter().map(weight).collect())
    })
}

/// Fits again and again with weights from the last residuals, from the ordinary line, as long as there are weights.
fn reweighted(
    entries: &[Entry],
    passes: usize,
    weights: impl Fn(&[f64]) -> Option<Vec<f64>>,
) -> Option<Line> {
    if entries.len() < 3 {
        return None;
    }
    let ones = vec![1.0; entries.len()];
    let (mut a, mut b) = weighted(entries, &ones)?;
    for _ in 0..passes {
        let Some(next) = weights(&residuals(entries, a, b)) else {
            break;
        };
        let (next_a, next_b) = weighted(entries, &next)?;
        let settled = (next_a - a).abs() < 1e-11 && (next_b - b).abs() < 1e-12;
        (a, b) = (next_a, next_b);
        if settled {
            break;
        }
    }
    Line::new(a, b)
}

/// Intercept and slope of the weighted line.
fn weighted(entries: &[Entry], weights: &[f64]) -> Option<(f64, f64)> {
    let each = || entries.iter().zip(weights);
    let total: f64 = weights.iter().sum();
    let mean_x = each().map(|(e, w)| w * e.x).sum::<f64>() / total;
    let mean_y = each().map(|(e, w)| w * e.y).sum::<f64>() / total;
    let sxx: f64 = each().map(|(e, w)| w * (e.x - mean_x) * (e.x - mean_x)).sum();
    let sxy: f64 = each().map(|(e, w)| w * (e.x - mean_x) * (e.y - mean_y)).sum();
    let slope = sxy / sxx;
    slope.is_finite().then_some((mean_y - slope * mean_x, slope))
}

fn residuals(entries: &[Entry], a: f64, b: f64) -> Vec<f64> {
    entries.iter().map(|e| e.y - a - b * e.x).collect()
}

fn median(sorted: &[f64]) -> Option<f64> {
    let middle = sorted.len() / 2;
    let upper = *sorted.get(middle)?;
    if sorted.len() % 2 == 1 {
        return Some(upper);
    }
    Some(f64::midpoint(*sorted.get(middle.checked_sub(1)?)?, upper))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entries(points: &[(f64, f64)]) -> Vec<Entry> {
        points.iter().map(|&(x, y)| Entry { x, y, camera: 0 }).collect()
    }

    #[test]
    fn all_lines_find_a_straight_log() {
        let log = entries(&[(5.0, 3.6), (8.0, 7.2), (11.0, 10.8), (14.0, 14.4)]);
        let ols = ordinary(&log).unwrap();
        for line in [ols.line, huber(&log).unwrap(), soft_l1(&log).unwrap()] {
            assert!((line.exponent - 1.2).abs() < 1e-9);
            assert!((line.log2_speed - 2.0).abs() < 1e-9);
            assert!((line.speed() - 4.0).abs() < 1e-8);
        }
        assert!(ols.residual < 1e-9);
    }

    #[test]
    fn a_log_in_one_light_has_no_line() {
        let log = entries(&[(5.0, 3.6), (5.0, 3.7), (5.0, 3.5)]);
        assert_eq!(ordinary(&log), None);
        assert_eq!(huber(&log), None);
        assert_eq!(ordinary(&entries(&[(5.0, 3.6), (6.0, 3.7)])), None);
    }
}
