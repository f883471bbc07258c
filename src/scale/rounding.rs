//! Rounding several weighings to one scale, together: what a bath does depends on how its materials stand to each other
//! more than on each of them.
//!
//! Nothing here but sums, products and quotients, which IEEE 754 fixes to the last bit, and no logarithm, which it does not:
//! the site's script (`templates/site/scale.js`) rounds the same way in any browser.

/// A candidate: rounded over wanted, whose it is, and what is weighed.
#[derive(Clone, Copy)]
struct Candidate {
    error: f64,
    of: usize,
    weighed: f64,
}

impl Candidate {
    /// How far it is off, whichever way: 1 is not at all.
    fn off(&self) -> f64 {
        off(self.error)
    }
}

/// A multiple that binary fractions leave a billionth away from itself still counts as that multiple.
pub const SAME: f64 = 1e-9;

/// Each amount to its nearest step, and never to nothing.
///
/// `wanted` and `step` in the same unit, all above zero. Source: own arithmetic.
pub fn independently(wanted: &[f64], step: f64) -> Vec<f64> {
    let nearest = |amount: &f64| (amount / step).round().max(1.0) * step;
    wanted.iter().map(nearest).collect()
}

/// All amounts to a step above or below them, so chosen that the worst error of any ratio between two of them is least;
/// where each one's nearest step does as well, those.
///
/// `wanted` and `step` in the same unit, all above zero. Every amount has two candidates; sorted by error, the shortest
/// stretch that holds one of each amount has the least worst ratio. Source: own derivation.
pub fn jointly(wanted: &[f64], step: f64) -> Vec<f64> {
    let plain = independently(wanted, step);
    let all = candidates(wanted, step);
    let Some((low, high)) = shortest(&all, wanted.len()) else {
        return plain;
    };
    if spread(wanted, &plain) <= high / low * (1.0 + SAME) {
        return plain;
    }
    let inside = |candidate: &&Candidate| (low..=high).contains(&candidate.error);
    let chosen = |of: usize| {
        let own = all.iter().filter(inside).filter(|candidate| candidate.of == of);
        own.min_by(|a, b| a.off().total_cmp(&b.off()))
            .map(|candidate| candidate.weighed)
    };
    plain
        .iter()
        .enumerate()
        .map(|(of, plain)| chosen(of).unwrap_or(*plain))
        .collect()
}

/// The worst error of any ratio between two amounts, as a ratio: `1.01` is one percent. One for fewer than two.
pub fn spread(wanted: &[f64], weighed: &[f64]) -> f64 {
    let errors = || {
        wanted
            .iter()
            .zip(weighed)
            .map(|(wanted, weighed)| weighed / wanted)
    };
    let (low, high) = (
        errors().fold(f64::INFINITY, f64::min),
        errors().fold(0.0, f64::max),
    );
    (high / low).max(1.0)
}

/// A ratio or its inverse, whichever is larger.
fn off(ratio: f64) -> f64 {
    ratio.max(1.0 / ratio)
}

fn candidates(wanted: &[f64], step: f64) -> Vec<Candidate> {
    let mut all = Vec::with_capacity(wanted.len() * 2);
    for (of, wanted) in wanted.iter().enumerate() {
        let steps = wanted / step;
        let below = (steps + SAME).floor();
        let above = (steps - SAME).ceil();
        for count in [below, above] {
            if count >= 1.0 {
                let weighed = count * step;
                all.push(Candidate {
                    error: weighed / wanted,
                    of,
                    weighed,
                });
            }
        }
    }
    all.sort_by(|a, b| a.error.total_cmp(&b.error));
    all
}

/// The ends of the shortest stretch of sorted candidates that holds one of each; of equal ones the nearest to no error.
fn shortest(all: &[Candidate], amounts: usize) -> Option<(f64, f64)> {
    let mut held = vec![0_usize; amounts];
    let mut covered = 0;
    let mut from = all.iter().peekable();
    let mut best: Option<(f64, f64)> = None;
    for last in all {
        let count = held.get_mut(last.of)?;
        covered += usize::from(*count == 0);
        *count += 1;
        while covered == amounts {
            let first = from.next()?;
            let (width, worst) = (last.error / first.error, first.off().max(last.off()));
            let better = best.is_none_or(|(low, high)| {
                let shorter = high / low / width;
                shorter > 1.0 + SAME || (shorter > 1.0 - SAME && worst < off(low).max(off(high)))
            });
            if better {
                best = Some((first.error, last.error));
            }
            let count = held.get_mut(first.of)?;
            *count -= 1;
            covered -= usize::from(*count == 0);
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn two_that_round_apart_are_rounded_together() {
        // Worked by hand for whole grams: 2.5 to 7.4 is 0.338. 3 to 7 is 27 % off, 2 to 7 is 15 % off, 3 to 8 is 11 % off.
        assert_eq!(jointly(&[2.5, 7.4], 1.0), [3.0, 8.0]);
        assert_eq!(independently(&[2.5, 7.4], 1.0), [3.0, 7.0]);
    }

    #[test]
    fn what_is_on_the_step_stays() {
        assert_eq!(
            jointly(&[48.6, 6.0, 3.0], 0.1),
            independently(&[48.6, 6.0, 3.0], 0.1)
        );
        assert_eq!(jointly(&[], 0.1), Vec::<f64>::new());
        assert_eq!(jointly(&[0.02], 0.1), [0.1]);
    }

    /// The least spread over every choice of a step above or below.
    fn least(wanted: &[f64], step: f64) -> f64 {
        let mut best = f64::INFINITY;
        for choice in 0..1_u32 << wanted.len() {
            let weighed: Vec<f64> = wanted
                .iter()
                .enumerate()
                .map(|(at, wanted)| {
                    let steps = wanted / step;
                    let count = if choice >> at & 1 == 0 {
                        steps.floor()
                    } else {
                        steps.ceil()
                    };
                    count.max(1.0) * step
                })
                .collect();
            best = best.min(spread(wanted, &weighed));
        }
        best
    }

    proptest! {
        #[test]
        fn no_choice_keeps_the_ratios_better(
            wanted in prop::collection::vec(0.05..60.0_f64, 1..7),
            step in prop::sample::select(vec![0.01, 0.1, 0.5, 1.0, 5.0]),
        ) {
            let joint = jointly(&wanted, step);
            let joined = spread(&wanted, &joint);
            prop_assert!(joined <= spread(&wanted, &independently(&wanted, step)) + 1e-8);
            prop_assert!(joined <= least(&wanted, step) + 1e-8, "{joint:?}");
            for (wanted, weighed) in wanted.iter().zip(&joint) {
                prop_assert!((wanted - weighed).abs() < step + 1e-6 || *weighed == step);
                let steps = weighed / step;
                prop_assert!((steps - steps.round()).abs() < 1e-6);
            }
        }
    }
}
