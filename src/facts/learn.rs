//! What the log teaches about each paper: judged exposures gathered once, and for each moment what was known before it.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use jiff::Timestamp;
use rayon::prelude::*;

use crate::notebook::{Block, Exposure, Light, Notebook, Paper, Verdict};
use crate::optics::SceneLight;
use crate::optics::fit::{self, Entry, Fit, Method, Prior};
use crate::source::ByName;
use crate::units::scalar::{ExposureValue, FNumber, Stops, Time};

use super::Facts;
use super::light;
use super::paper::camera_speed;

/// How many of the latest exposures are weighed: older ones speak of an older box. Own choice.
pub const LATEST: usize = 40;

/// Up to this many exposures each new one is learnt from at once; beyond, when their number has grown by a sixteenth. So a log
/// of any length needs few fits.
const AT_ONCE: usize = 32;

/// The judged exposures of every paper.
#[derive(Debug, Default)]
pub struct Learned {
    papers: BTreeMap<String, PaperLog>,
    cameras: BTreeMap<String, usize>,
    /// What each exposure is to the log.
    readings: ByName<String, Option<Arc<Reading>>>,
}

#[derive(Debug)]
struct PaperLog {
    /// In order of time.
    noted: Vec<Noted>,
    /// The times of these, for a quick look.
    moments: Vec<Timestamp>,
    /// Exposures that were judged and tell nothing, with the reason.
    mute: Vec<(String, &'static str)>,
    prior: Prior,
    fits: BTreeMap<usize, Arc<Fit>>,
}

/// A judged exposure.
#[derive(Debug, Clone, PartialEq)]
pub struct Noted {
    /// Its block's id.
    pub id: Arc<str>,
    /// When it was made.
    pub at: Timestamp,
    /// What the fit sees of it.
    pub entry: Entry,
}

/// What was known of a paper at some moment.
#[derive(Debug)]
pub struct Lesson<'l> {
    /// The fit; its places are those of `noted`.
    pub fit: Cow<'l, Fit>,
    /// The exposures that were weighed, in order of time.
    pub noted: &'l [Noted],
    /// How many there were before, weighed or not.
    pub before: usize,
}

impl Lesson<'_> {
    /// Whether the log says more than what is known of paper in general.
    pub fn tells(&self) -> bool {
        self.fit.method != Method::Prior
    }

    /// The ids of the exposures at some places.
    pub fn ids(&self, places: &[usize]) -> Vec<&str> {
        let of = |at: &usize| self.noted.get(*at).map(|noted| &*noted.id);
        places.iter().filter_map(of).collect()
    }
}

impl Learned {
    /// Reads every exposure once. Needs the facts of the cameras.
    ///
    /// What was learnt before is told again of exposures that are not among `others`, and of logs that are the same; without
    /// `others` any may differ.
    pub(super) fn of(
        notebook: &Notebook,
        facts: &Facts,
        before: &mut Self,
        others: Option<&BTreeSet<String>>,
    ) -> Self {
        let mut learned = Self::default();
        let mut known = std::mem::take(&mut before.readings);
        match others {
            Some(others) => others.iter().for_each(|id| drop(known.remove(id))),
            None => known = ByName::default(),
        }
        for (block, _) in notebook.cameras() {
            let next = learned.cameras.len();
            learned.cameras.entry(block.id.clone()).or_insert(next);
        }
        let exposures = notebook.exposures().filter(|(block, _)| !block.doubled);
        let exposures: Vec<(&Block, &Exposure)> = exposures.collect();
        let anew = |id: &str, exposure: &Exposure| learned.read(id, exposure, notebook, facts).map(Arc::new);
        let readings: Vec<Option<Arc<Reading>>> = exposures
            .par_iter()
            .map(|(block, exposure)| {
                let known = known.get(&block.id).cloned();
                known.unwrap_or_else(|| anew(&block.id, exposure))
            })
            .collect();
        // Where a fit will be asked for: before each exposure without a time, and at the end.
        let mut asked: BTreeMap<&str, Vec<Timestamp>> = BTreeMap::new();
        let mut papers: BTreeMap<&str, Option<PaperLog>> = BTreeMap::new();
        for ((block, _), reading) in exposures.iter().zip(&readings) {
            let Some(reading) = reading else { continue };
            let paper = reading.paper.as_str();
            let log = papers
                .entry(paper)
                .or_insert_with(|| notebook.paper(paper).map(|(_, body)| PaperLog::new(body)));
            let Some(log) = log else { continue };
            match &reading.taught {
                Some(Ok(noted)) => log.noted.push(noted.clone()),
                Some(Err(why)) => log.mute.push((block.id.clone(), why)),
                None => {}
            }
            asked.entry(paper).or_default().extend(reading.asks);
        }
        let logs = papers.into_iter();
        learned.papers = logs
            .filter_map(|(paper, log)| Some((paper.to_owned(), log?)))
            .collect();
        learned.papers.par_iter_mut().for_each(|(paper, log)| {
            log.noted.sort_by(|a, b| (a.at, &a.id).cmp(&(b.at, &b.id)));
            log.moments = log.noted.iter().map(|noted| noted.at).collect();
            let moments = asked.get(paper.as_str()).map_or(&[][..], Vec::as_slice);
            let mut sizes: BTreeSet<usize> = moments.iter().map(|at| log.known(Some(*at))).collect();
            sizes.insert(log.known(None));
            let before = before.papers.get(paper).filter(|old| old.prior == log.prior);
            let kept = |size| {
                let old = before.filter(|old| old.window(size) == log.window(size))?;
                old.fits.get(&size).cloned()
            };
            let fit = |size| kept(size).unwrap_or_else(|| Arc::new(log.fit(size)));
            log.fits = sizes.into_iter().map(|size| (size, fit(size))).collect();
        });
        // Those of exposures that are gone are never asked for again.
        for ((block, _), reading) in exposures.iter().zip(readings) {
            if known.get(&block.id).is_none() {
                known.insert(block.id.clone(), reading);
            }
        }
        learned.readings = known;
        learned
    }

    fn read(&self, id: &str, exposure: &Exposure, notebook: &Notebook, facts: &Facts) -> Option<Reading> {
        let at = exposure.when.get()?.value.instant();
        let paper = exposure.paper.get()?.value.clone();
        // A time that was not written is computed, and the sun is followed with what the paper needs.
        let in_sun = Light::Scene(SceneLight::Sun);
        let asks =
            exposure.time.is_absent() || exposure.light.get().is_some_and(|light| light.value == in_sun);
        Some(Reading {
            paper,
            asks: asks.then_some(at),
            taught: self.taught(id, at, exposure, notebook, facts),
        })
    }

    fn taught(
        &self,
        id: &str,
        at: Timestamp,
        exposure: &Exposure,
        notebook: &Notebook,
        facts: &Facts,
    ) -> Option<Result<Noted, &'static str>> {
        let Some((time, needs)) = judged(exposure)? else {
            return Some(Err("its time was computed, not noted"));
        };
        let paper = notebook.paper(&exposure.paper.get()?.value)?.1;
        let style = notebook.settings.style;
        let camera = &exposure.camera.get()?.value;
        let (Some(light), Some(n), Some(number)) = (
            light::light(exposure, notebook, style).range(),
            facts.range(camera, "f-number"),
            self.cameras.get(camera),
        ) else {
            return Some(Err("its light or its camera is not known"));
        };
        let Ok(value) = light::between(exposure, Some(paper), notebook).seen(light) else {
            return Some(Err("the colour of its light or its filter is not known"));
        };
        let entry = Entry::new(
            ExposureValue::new(value.best),
            FNumber::new(n.best),
            Time::from_seconds(time),
            Stops::new(needs),
            *number,
        );
        Some(match entry {
            Some(entry) => Ok(Noted {
                id: id.into(),
                at,
                entry,
            }),
            None => Err("it took no more than a second, where reciprocity does not show"),
        })
    }

    /// What was known of a paper before a moment; at the end of the log without one. None for a paper without judged
    /// exposures.
    pub fn before(&self, paper: &str, moment: Option<Timestamp>) -> Option<Lesson<'_>> {
        let log = self.papers.get(paper)?;
        let size = log.known(moment);
        let fit = match log.fits.get(&size) {
            Some(fit) => Cow::Borrowed(&**fit),
            None => Cow::Owned(log.fit(size)),
        };
        Some(Lesson {
            fit,
            noted: log.window(size),
            before: size,
        })
    }

    /// Up to how many exposures each paper's log is the same as in another, where what is known of the paper itself is too.
    /// None where the cameras are not the same: then no lesson is.
    pub(super) fn same_up_to(&self, other: &Self) -> Option<BTreeMap<String, usize>> {
        let same = |paper: &String, log: &PaperLog| {
            let old = other.papers.get(paper).filter(|old| old.prior == log.prior)?;
            let pairs = old.noted.iter().zip(&log.noted);
            Some((paper.clone(), pairs.take_while(|(old, new)| old == new).count()))
        };
        let papers = self.papers.iter().filter_map(|(paper, log)| same(paper, log));
        (self.cameras == other.cameras).then(|| papers.collect())
    }

    /// How many exposures of a paper are weighed or passed over for a lesson before a moment; none where it has no log.
    pub(super) fn size_before(&self, paper: &str, moment: Option<Timestamp>) -> Option<usize> {
        Some(self.papers.get(paper)?.known(moment))
    }

    /// Exposures of a paper that were judged and tell nothing, with the reason.
    pub fn mute(&self, paper: &str) -> &[(String, &'static str)] {
        self.papers.get(paper).map_or(&[], |log| log.mute.as_slice())
    }

    /// Each paper with each of its judged exposures, whether that teaches something or not.
    pub(super) fn teachers(&self) -> impl Iterator<Item = (&str, &str)> {
        self.papers.iter().flat_map(|(paper, log)| {
            let noted = log.noted.iter().map(|noted| &*noted.id);
            let mute = log.mute.iter().map(|(id, _)| id.as_str());
            noted.chain(mute).map(move |id| (paper.as_str(), id))
        })
    }

    /// A camera's number in the fits.
    pub fn camera(&self, id: &str) -> Option<usize> {
        self.cameras.get(id).copied()
    }

    /// The camera of a number.
    pub(super) fn camera_id(&self, number: usize) -> Option<&str> {
        let found = self.cameras.iter().find(|(_, held)| **held == number);
        found.map(|(id, _)| id.as_str())
    }
}

/// What one exposure is to the log.
#[derive(Debug)]
struct Reading {
    /// The paper.
    paper: String,
    /// When it wants to know what the log tells.
    asks: Option<Timestamp>,
    /// What it teaches, or why it cannot; none where it was not judged.
    taught: Option<Result<Noted, &'static str>>,
}

/// The time in seconds of a judged sheet and the stops that it still needs. None where no verdict says so; `Some(None)`
/// where there is a verdict and no written time to go with it.
#[expect(
    clippy::option_option,
    reason = "not judged, and judged without a time, are told apart"
)]
fn judged(exposure: &Exposure) -> Option<Option<(f64, f64)>> {
    let verdict = &exposure.result.get()?.value;
    let time = exposure.time.get().map(|time| time.range.best);
    let middle = exposure.bracket.get().map(|bracket| {
        let (count, stops) = (f64::from(bracket.value.count), bracket.value.stops.range.best);
        (count, stops)
    });
    match (verdict, exposure.strip.get()) {
        (Verdict::RightAtStep(step), Some(strip)) => {
            let strip = &strip.value;
            let right = (1..=strip.steps).contains(step);
            let doubled = strip.stops.range.best * (f64::from(*step) - 1.0);
            right.then(|| Some((strip.from.range.best * libm::exp2(doubled), 0.0)))
        }
        (Verdict::RightAtStep(step), None) => {
            let (count, stops) = middle?;
            let step = f64::from(*step);
            if step > count {
                return None;
            }
            // A bracket lies in metered stops about its time, so its step is a need of that time.
            Some(time.map(|time| (time, stops * (step - f64::midpoint(count, 1.0)))))
        }
        // What a strip or a bracket as a whole needs is said of no one time.
        (_, Some(_)) => None,
        (verdict, None) => {
            let needs = verdict.needs_stops()?;
            Some(time.map(|time| (time, needs)))
        }
    }
}

impl PaperLog {
    fn new(paper: &Paper) -> Self {
        let mut prior = Prior::paper();
        let speed = camera_speed(paper, crate::units::Style::default()).map(|(speed, _)| speed.best);
        if let Some(speed) = speed.ok().filter(|speed| *speed > 0.0) {
            prior = prior.around(speed);
        }
        if let Some(written) = paper.reciprocity.get() {
            prior.exponent = written.value.p.best;
        }
        Self {
            noted: Vec::new(),
            moments: Vec::new(),
            mute: Vec::new(),
            prior,
            fits: BTreeMap::new(),
        }
    }

    /// How many exposures are known before a moment, coarsely where there are many.
    fn known(&self, moment: Option<Timestamp>) -> usize {
        let all = moment.map_or(self.noted.len(), |moment| {
            self.moments.partition_point(|at| *at < moment)
        });
        coarse(all)
    }

    fn window(&self, size: usize) -> &[Noted] {
        self.noted.get(size.saturating_sub(LATEST)..size).unwrap_or(&[])
    }

    fn fit(&self, size: usize) -> Fit {
        let entries: Vec<Entry> = self.window(size).iter().map(|noted| noted.entry).collect();
        fit::fit(&entries, &self.prior)
    }
}

/// A count with its five leading binary digits alone.
fn coarse(count: usize) -> usize {
    let mut drop = 0;
    while (count >> drop) >= AT_ONCE {
        drop += 1;
    }
    (count >> drop) << drop
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn few_counts_are_exact_and_many_are_few() {
        for count in 0..AT_ONCE {
            assert_eq!(coarse(count), count);
        }
        let sizes: BTreeSet<usize> = (0..30_000).map(coarse).collect();
        assert!(sizes.len() < 200, "{}", sizes.len());
        for count in [33, 100, 1000, 29_999] {
            assert!(coarse(count) <= count && coarse(count) * 17 > count * 16);
        }
    }
}
