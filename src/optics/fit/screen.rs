//! Setting strange exposures aside: each against the prediction of all the others.

use super::entry::Entry;
use super::posterior::{Posterior, Prior};

/// From this many standard deviations on an exposure is set aside. Common practice, no source.
pub const STRANGE: f64 = 3.5;

/// How far each exposure lies from what the others predict, in standard deviations; positive for a longer time.
///
/// Source: own choice. M-estimators do not guard against a wild time in a light of its own, leaving one out does.
pub fn leave_one_out(entries: &[Entry], prior: &Prior) -> Vec<f64> {
    (0..entries.len())
        .map(|left_out| {
            let others: Vec<Entry> = entries
                .iter()
                .enumerate()
                .filter(|(at, _)| *at != left_out)
                .map(|(_, entry)| *entry)
                .collect();
            let (Some(entry), Some(posterior)) = (
                entries.get(left_out),
                Posterior::most_probable(&others, &[], prior),
            ) else {
                return 0.0;
            };
            let (mean, variance) = posterior.at(entry.x, None);
            (entry.y - mean) / libm::sqrt(variance + prior.noise * prior.noise)
        })
        .collect()
}

/// The places of the entries to keep and of those set aside: the strangest first, again and again, up to a quarter of the
/// log and at least one, and never from fewer than three.
pub(super) fn screen(entries: &[Entry], prior: &Prior) -> (Vec<usize>, Vec<usize>) {
    let mut kept: Vec<usize> = (0..entries.len()).collect();
    let mut aside = Vec::new();
    let most = (entries.len() / 4).max(1);
    while kept.len() >= 3 && aside.len() < most {
        let now: Vec<Entry> = kept.iter().filter_map(|at| entries.get(*at).copied()).collect();
        let strangest = leave_one_out(&now, prior)
            .into_iter()
            .map(f64::abs)
            .enumerate()
            .max_by(|a, b| a.1.total_cmp(&b.1));
        match strangest {
            Some((at, size)) if size > STRANGE => aside.push(kept.remove(at)),
            _ => break,
        }
    }
    aside.sort_unstable();
    (kept, aside)
}
