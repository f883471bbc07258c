//! Development by first appearance and by inspection.

use crate::units::Range;
use crate::units::scalar::Time;

/// The whole time from the time of first appearance: `appearance × factor`.
///
/// The factor belongs to an agent, a paper and a contrast; it hardly depends on temperature. Source: Watkins's factorial
/// method, as given in photographic handbooks of the 1920s.
pub fn factorial(appearance: Time, factor: f64) -> Time {
    appearance * factor
}

/// The factor of mixed agents: the mean of their factors weighted by their parts; nothing without parts.
///
/// Source: Cyclopaedia of Photography, Pyro-soda and pyro-potash factors.
pub fn mixed_factor(parts: &[(f64, f64)]) -> Option<f64> {
    let total: f64 = parts.iter().map(|(share, _)| share).sum();
    let sum: f64 = parts.iter().map(|(share, factor)| share * factor).sum();
    (total > 0.0).then(|| sum / total)
}

/// A factor from good prints: the spread of total over appearance, with their median as the best value.
///
/// Nothing without prints or with a time that is not above zero. Three prints or more are worth the name; common practice,
/// no source.
pub fn factor_from_prints(prints: &[(Time, Time)]) -> Option<Range> {
    if prints
        .iter()
        .any(|(appearance, total)| *appearance <= Time::ZERO || *total <= Time::ZERO)
    {
        return None;
    }
    let mut factors: Vec<f64> = prints
        .iter()
        .map(|(appearance, total)| *total / *appearance)
        .collect();
    factors.sort_by(f64::total_cmp);
    let (low, high) = (*factors.first()?, *factors.last()?);
    let middle = factors.len() / 2;
    let upper = *factors.get(middle)?;
    let best = if factors.len() % 2 == 1 {
        upper
    } else {
        f64::midpoint(*factors.get(middle.checked_sub(1)?)?, upper)
    };
    Some(Range::new(low, best, high))
}

/// When to take a print out by inspection: from the shortest time for full black to twice that.
///
/// Source: Photography, Theory and Practice, paragraphs 556 and 557: a paper that needed 140 s was unharmed at 200 s and stained
/// at 280 s.
pub fn by_inspection(full_black: Time) -> (Time, Time) {
    (full_black, full_black * 2.0)
}

/// What diluting a developer to twice its volume does to its time: 1.4 to 2 times, 1.7 to begin with. Common practice, no
/// source.
pub const DOUBLE_DILUTION: Range = Range {
    low: 1.4,
    best: 1.7,
    high: 2.0,
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_prints_make_a_factor() {
        let s = Time::from_seconds;
        let prints = [(s(20.0), s(120.0)), (s(15.0), s(105.0)), (s(30.0), s(150.0))];
        assert_eq!(factor_from_prints(&prints), Some(Range::new(5.0, 6.0, 7.0)));
        assert_eq!(factor_from_prints(&[]), None);
        assert_eq!(factor_from_prints(&[(Time::ZERO, s(3.0))]), None);
        assert_eq!(mixed_factor(&[]), None);
    }
}
