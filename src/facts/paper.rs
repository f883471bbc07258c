//! Facts of papers: what exposures are computed with, and what the log says instead.

use std::fmt::Write as _;

use crate::notebook::{Evidence, Paper};
use crate::optics::fit::{EIGHTY_PERCENT, Fit, Method, STRANGE};
use crate::optics::{ReciprocityTable, SceneLight, paper_speed, reciprocity};
use crate::units::scalar::{ExposureValue, FNumber, Time};
use crate::units::{Amount, Digits, Dimension, Range, Style, number, show};

use super::fact::{Fact, Input, Measure};
use super::learn::{Learned, Lesson};

const SPEED: Measure = Measure::Amount(Dimension::Speed, Digits::Significant(2));
const LEARNT: Measure = Measure::Estimate(Dimension::Speed, Digits::Significant(2));
const FROM_LOG: &str =
    "most probable speed of the judged exposures, with the interval that holds four times out of five";

/// A paper's own figures, as written.
pub(super) struct Figures {
    /// The camera speed.
    pub(super) speed: Range,
    law: Law,
    /// As inputs of a fact.
    pub(super) inputs: Vec<Input>,
}

enum Law {
    Table(ReciprocityTable),
    Power { exponent: Range, threshold: Time },
}

impl Figures {
    /// A paper's figures. `guesses` gives what was only guessed the spread of what is known of paper in general.
    pub(super) fn of(paper: &Paper, guesses: bool, style: Style) -> Result<Self, String> {
        let (mut speed, words) = camera_speed(paper, style)?;
        let guessed = |evidence: Option<Evidence>, range: Range| {
            guesses && evidence == Some(Evidence::Guessed) && range.is_exact()
        };
        let mut inputs = Vec::new();
        match paper.speed.get() {
            Some(written) if guessed(written.evidence, speed) => {
                speed = Range::new(speed.best / 2.0, speed.best, speed.best * 2.0);
                inputs.push(input("speed", format!("{words}, guessed: a stop either way")));
            }
            Some(_) => {}
            None => inputs.push(input("speed", words)),
        }
        let law = Law::of(paper, &mut inputs, &guessed, style)?;
        Ok(Self { speed, law, inputs })
    }

    /// Metered seconds to needed ones.
    pub(super) fn corrected(&self, metered: Range) -> Range {
        match &self.law {
            Law::Table(table) => table.corrected_range(metered),
            Law::Power { exponent, threshold } => reciprocity::power_range(metered, *exponent, *threshold),
        }
    }
}

/// The speed that a paper's times are computed with, and where it is from in words: as written, else estimated from its
/// printing speed.
pub(super) fn camera_speed(paper: &Paper, style: Style) -> Result<(Range, String), String> {
    if let Some(written) = paper.speed.get() {
        return Ok((written.range, written.show(style)));
    }
    if paper.speed.is_broken() {
        return Err("the paper's speed cannot be read".to_owned());
    }
    let Some(printing) = paper.box_speed.get() else {
        return Err(
            "the paper does not say its camera speed: make a test strip, or guess 6 and mark it guessed"
                .to_owned(),
        );
    };
    let index = paper_speed::estimated_index(printing.range.best).index();
    let off = paper_speed::ESTIMATE_SPREAD.factor();
    let range = Range::new(index / off, index, index * off);
    let about = show(
        Range::exact(index),
        Dimension::Speed,
        Digits::Significant(2),
        style,
    );
    Ok((
        range,
        format!(
            "about {about} by the printing speed on the box, a stop and a half either way: a strip tells better"
        ),
    ))
}

impl Law {
    fn of(
        paper: &Paper,
        inputs: &mut Vec<Input>,
        guessed: &dyn Fn(Option<Evidence>, Range) -> bool,
        style: Style,
    ) -> Result<Self, String> {
        if !paper.times.is_empty() {
            let seconds = |amount: &Amount| Time::from_seconds(amount.range.best);
            let mut pairs: Vec<(Time, Time)> = paper
                .times
                .iter()
                .map(|(metered, needed)| (seconds(metered), seconds(needed)))
                .collect();
            pairs.sort_by(|a, b| a.0.seconds().total_cmp(&b.0.seconds()));
            inputs.push(input(
                "times",
                format!("{} pairs of the paper's table", pairs.len()),
            ));
            return ReciprocityTable::new(pairs)
                .map(Self::Table)
                .map_err(|error| error.to_string());
        }
        let (exponent, words) = match paper.reciprocity.get() {
            Some(written) if guessed(written.value.evidence, written.value.p) => {
                let p = written.value.p.best;
                let spread = reciprocity::PAPER_EXPONENT.width() / 2.0;
                let range = Range::new((p - spread).max(1.0), p, p + spread);
                let text = number(Range::exact(p), Digits::Significant(3), style);
                (range, format!("p {text}, guessed: 0.15 either way"))
            }
            Some(written) => {
                let p = written.value.p;
                (p, format!("p {}", number(p, Digits::Significant(3), style)))
            }
            None if paper.reciprocity.is_broken() => {
                return Err("the paper's reciprocity cannot be read".to_owned());
            }
            None => (
                reciprocity::PAPER_EXPONENT,
                "p 1.05–1.35, assumed: the paper does not say (common practice, no source)".to_owned(),
            ),
        };
        inputs.push(input("reciprocity", words));
        let threshold = paper
            .threshold
            .get()
            .map_or(reciprocity::DEFAULT_THRESHOLD.seconds(), |given| given.range.best);
        inputs.push(input(
            "threshold",
            show(
                Range::exact(threshold),
                Dimension::Time,
                Digits::Significant(2),
                style,
            ),
        ));
        if threshold <= 0.0 {
            return Err("the threshold is not above zero".to_owned());
        }
        Ok(Self::Power {
            exponent,
            threshold: Time::from_seconds(threshold),
        })
    }
}

fn input(name: &str, value: String) -> Input {
    Input {
        name: name.to_owned(),
        value,
    }
}

pub(super) fn facts(paper: &Paper, id: &str, learned: &Learned, style: Style) -> Vec<Fact> {
    let speed = match (camera_speed(paper, style), paper.speed.get()) {
        (Ok((range, words)), Some(_)) => Fact::new("speed", SPEED, "as written")
            .from("speed", words)
            .number(range),
        (Ok((range, words)), None) => Fact::new(
            "speed",
            LEARNT,
            "0.008 times the printing speed, which puts the middle that meters aim at on the paper's middle tone",
        )
        .from("speed", words)
        .source("iso-6846")
        .number(range),
        (Err(why), _) => Fact::new("speed", SPEED, "as written").gap(why),
    };
    let p = Fact::new(
        "reciprocity",
        Measure::Amount(Dimension::Number, Digits::Significant(3)),
        "exponent p by which times beyond the threshold lengthen",
    );
    let p = match paper.reciprocity.get() {
        Some(written) => p
            .from("reciprocity", written.value.written.clone())
            .number(written.value.p),
        None if paper.reciprocity.is_broken() => p.gap("the reciprocity cannot be read"),
        None => p.gap("not noted"),
    };
    vec![speed, p, from_log(id, learned, style)]
}

/// The speed that the log shows, with what it was learnt from.
fn from_log(id: &str, learned: &Learned, style: Style) -> Fact {
    let mut fact = Fact::new("from-log", LEARNT, FROM_LOG);
    let Some(lesson) = learned.before(id, None) else {
        return fact.gap("no exposure on this paper was judged yet: three are needed, with their times");
    };
    if !lesson.tells() {
        let mute = learned.mute(id);
        let mut why = format!(
            "the log has {} of the three judged exposures that it takes",
            count(lesson.before)
        );
        for (mute, reason) in mute.iter().take(3) {
            let _ = write!(why, "; `{mute}` is not counted, {reason}");
        }
        return fact.gap(why);
    }
    for input in lesson_inputs(&lesson, learned, style) {
        fact = fact.from(input.name, input.value);
    }
    for (mute, reason) in learned.mute(id) {
        fact = fact.from("not counted", format!("{mute}: {reason}"));
    }
    if let Some(next) = strip_that_tells_most(&lesson) {
        fact = fact.from("tells most", next);
    }
    fact.number(learned_speed(&lesson.fit))
}

fn count(number: usize) -> &'static str {
    match number {
        0 => "none",
        1 => "one",
        _ => "two",
    }
}

/// The learnt index as the interval that holds four times out of five.
pub(super) fn learned_speed(fit: &Fit) -> Range {
    let (best, sd) = (fit.posterior.line.log2_speed, fit.posterior.log2_speed_sd());
    let at = |z: f64| libm::exp2(best + z * sd);
    Range::new(at(-EIGHTY_PERCENT), at(0.0), at(EIGHTY_PERCENT))
}

/// Cameras that differ by less stops than this are told as one. Own choice.
const SAME: f64 = 0.05;

/// What a lesson was drawn from, as inputs of a fact.
pub(super) fn lesson_inputs(lesson: &Lesson<'_>, learned: &Learned, style: Style) -> Vec<Input> {
    let fit = &lesson.fit;
    let mut inputs = Vec::new();
    let used = lesson.ids(&fit.used);
    let of = if lesson.before > lesson.noted.len() {
        format!(" (the latest of {})", lesson.before)
    } else {
        String::new()
    };
    inputs.push(input(
        "judged exposures",
        format!("{}{of}: {}", used.len(), used.join(", ")),
    ));
    for aside in lesson.ids(&fit.aside) {
        inputs.push(input(
            "set aside",
            format!(
                "{aside}: over {} standard deviations from what the others say, so a slip of the pen or of the shutter",
                number(Range::exact(STRANGE), Digits::Decimals(1), style)
            ),
        ));
    }
    let p = fit.posterior.line.exponent;
    let three = |range: Range| number(range, Digits::Significant(3), style);
    let stops = |stops: f64| show(Range::exact(stops), Dimension::Stops, Digits::Decimals(1), style);
    let reciprocity = if fit.method == Method::SpeedOnly {
        format!(
            "p held at {}: the lights lie within {}, three stops are needed to tell",
            three(Range::exact(p)),
            stops(fit.span)
        )
    } else {
        let spread = EIGHTY_PERCENT * fit.posterior.exponent_sd();
        let mut words = format!("p {}", three(Range::plus_minus(p, spread)));
        if fit.exponent_is_strange() {
            words.push_str(", outside 1 to 2: look for a wrong light or time in the log");
        }
        words
    };
    inputs.push(input("reciprocity learnt", reciprocity));
    for (camera, offset) in &fit.posterior.offsets {
        if offset.abs() < SAME {
            continue;
        }
        let name = learned.camera_id(*camera).unwrap_or("a camera");
        let which = if *offset < 0.0 { "slower" } else { "faster" };
        inputs.push(input(
            "camera",
            format!("{name}: {} {which} than the others", stops(offset.abs())),
        ));
    }
    inputs
}

/// The light in which a strip would tell most: where the log is least sure of the time, among those that take less than
/// half an hour.
fn strip_that_tells_most(lesson: &Lesson<'_>) -> Option<String> {
    const LONGEST: f64 = 1800.0;
    const EASY_TO_FIND: [SceneLight; 6] = [
        SceneLight::Sun,
        SceneLight::CloudyBright,
        SceneLight::OpenShade,
        SceneLight::AfterSunset,
        SceneLight::Gallery,
        SceneLight::Office,
    ];
    let fit = &lesson.fit;
    // The f-number hardly matters to which light it is: f/250, as a pinhole camera has.
    let n = FNumber::new(250.0);
    let candidates = EASY_TO_FIND.into_iter().filter_map(|scene| {
        let prediction = fit.predict(ExposureValue::new(scene.best().value()), n, None);
        (prediction.time().seconds() <= LONGEST).then_some((scene, prediction.sd))
    });
    let (scene, sd) = candidates.max_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(format!(
        "a strip in `{}`: there the next time is known least, within a factor of {:.1}",
        scene.words(),
        libm::exp2(EIGHTY_PERCENT * sd)
    ))
}
