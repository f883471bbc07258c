//! Facts of exposures: from the light and the camera to the metered time, and from there to the time to give, by the log
//! where it can tell and else by the paper's own figures.

use crate::notebook::{Exposure, Notebook, Paper, Preflash};
use crate::optics::{ev, paper_speed, preflash, strip};
use crate::units::scalar::{LuminousExposure, Speed, Stops, Time};
use crate::units::{Digits, Dimension, Range, Style, show};

use super::Facts;
use super::fact::{Fact, Measure};
use super::follow;
use super::learn::Lesson;
use super::light::{self, Between, Sunlight};
use super::need::Need;
use super::paper::{self, Figures};
use super::sun;
use super::to_give::ToGive;

/// The time to give is one time; how far it may be off stands behind it.
const TO_GIVE: Measure = Measure::Estimate(Dimension::Time, Digits::Significant(2));
/// The formula of a time that the log tells.
pub const BY_LOG: &str =
    "by the log of judged exposures, with the interval that holds four times out of five";
const BY_FIGURES: &str = "metered time, lengthened by the paper's reciprocity";

/// From this time on it is said how much a written time gathers. Common practice, no source.
const LONG: f64 = 600.0;
/// How far the ends of a scene lie from its middle, in stops. Common practice, no source.
const HALF_A_SCENE: f64 = 3.0;

pub(super) fn facts(exposure: &Exposure, notebook: &Notebook, facts: &Facts, style: Style) -> Vec<Fact> {
    let paper = exposure.paper.get().and_then(|id| notebook.paper(&id.value));
    let paper = paper.map(|(_, paper)| paper);
    let light = light::light(exposure, notebook, style);
    let between = light::between(exposure, paper, notebook);
    let sheet = Sheet {
        exposure,
        paper,
        sunlight: Sunlight::of(exposure, notebook),
        value: light
            .range()
            .ok_or_else(|| light.how())
            .and_then(|range| between.seen(range)),
        between,
        facts,
        style,
    };
    let to_give = exposure.time.is_absent().then(|| sheet.to_give());
    let answer = to_give.as_ref().and_then(|answer| answer.as_ref().ok());
    let metered = sheet.metered(&light, answer);
    let lost = sheet.lost(&metered, answer);
    let time = sheet.time(&light, &metered, to_give.as_ref());
    let [altitude, azimuth] = sun::facts(exposure, notebook);
    vec![light, metered, time, lost, altitude, azimuth]
}

/// How many full exposures the sheet gathered while it was open, where its light is the sun's and moves: more than one is
/// too much. None for short exposures and for other light.
pub fn full_exposures(exposure: &Exposure, notebook: &Notebook, facts: &Facts) -> Option<f64> {
    let seconds = exposure.time.get()?.range.best;
    let sunlight = Sunlight::of(exposure, notebook)?;
    let paper = notebook.paper(&exposure.paper.get()?.value)?.1;
    let between = light::between(exposure, Some(paper), notebook);
    let sheet = Sheet {
        exposure,
        paper: Some(paper),
        value: between.seen(sunlight.value(sunlight.altitude(0.0)?)),
        sunlight: Some(sunlight),
        between,
        facts,
        style: notebook.settings.style,
    };
    sheet.gathered(seconds)
}

/// One sheet with all that its time needs.
pub(super) struct Sheet<'n> {
    pub(super) exposure: &'n Exposure,
    pub(super) paper: Option<&'n Paper>,
    pub(super) sunlight: Option<Sunlight>,
    /// The exposure value that the paper sees.
    pub(super) value: Result<Range, String>,
    pub(super) between: Between,
    pub(super) facts: &'n Facts,
    pub(super) style: Style,
}

impl<'n> Sheet<'n> {
    pub(super) fn f_number(&self) -> Result<(&'n Fact, Range), String> {
        let Some(camera) = self.exposure.camera.get() else {
            return Err("the camera cannot be read".to_owned());
        };
        let Some(fact) = self.facts.get(&camera.value, "f-number") else {
            return Err(format!("`{}` is no camera of this notebook", camera.value));
        };
        let range = fact
            .range()
            .ok_or_else(|| format!("the f-number of `{}` is not known: {}", camera.value, fact.how()))?;
        Ok((fact, range))
    }

    /// A time with what all times need: light, f-number and what stands between.
    pub(super) fn started(&self, mut fact: Fact, light: &Fact) -> Fact {
        if light.range().is_some() {
            fact = fact.from("light", light.text(self.style));
        }
        if let (Ok((f_number, _)), Some(camera)) = (self.f_number(), self.exposure.camera.get()) {
            fact = fact.from(format!("{}.f-number", camera.value), f_number.text(self.style));
        }
        for input in &self.between.inputs {
            fact = fact.from(input.name.clone(), input.value.clone());
        }
        fact
    }

    /// The time as given; where none was written, the one to give.
    fn time(&self, light: &Fact, metered: &Fact, to_give: Option<&Result<ToGive<'n>, String>>) -> Fact {
        let given = Fact::new("time", TO_GIVE, "as given");
        let fact = match (self.exposure.time.get(), to_give) {
            (Some(written), _) => {
                let fact = given.from("time", written.show(self.style)).number(written.range);
                self.with_gathered(fact, written.range.best)
            }
            (None, None) => given.gap("the time cannot be read"),
            (None, Some(Ok(to_give))) => self.needed(light, metered, to_give),
            (None, Some(Err(why))) => Fact::new("time", TO_GIVE, BY_FIGURES).gap(why.clone()),
        };
        self.with_steps(self.with_preflash(fact))
    }

    fn with_gathered(&self, fact: Fact, seconds: f64) -> Fact {
        match self.gathered(seconds) {
            Some(full) => fact.from(
                "full exposures gathered",
                format!(
                    "{:.2}, {} from one, following the sun",
                    full,
                    self.stops(libm::log2(full))
                ),
            ),
            None => fact,
        }
    }

    pub(super) fn stops(&self, stops: f64) -> String {
        show(
            Range::exact(stops),
            Dimension::Stops,
            Digits::Decimals(1),
            self.style,
        )
    }

    fn with_preflash(&self, fact: Fact) -> Fact {
        let words = match self.exposure.preflash.get() {
            Some(Preflash::Exposure(figure)) => match self.flash_takes(figure.range) {
                Some(taken) => format!(
                    "{}: a scene of {} comes {} softer, its shadows lifted; the time stays as it is",
                    figure.show(self.style),
                    self.stops(2.0 * HALF_A_SCENE),
                    self.stops(taken)
                ),
                None => format!(
                    "{}: lifts the shadows, by how much only the paper's speed tells; the time stays as it is",
                    figure.show(self.style)
                ),
            },
            Some(Preflash::Lamp { lamp, .. }) => format!(
                "{}: lifts the shadows, by how much only lux seconds tell; the time stays as it is",
                lamp.get().map_or("by a lamp", |lamp| lamp.value.as_str())
            ),
            None => return fact,
        };
        fact.from("preflash", words)
    }

    /// The stops that a flash takes from a scene whose middle is exposed as the meter has it.
    fn flash_takes(&self, flash: Range) -> Option<f64> {
        let speed = paper::camera_speed(self.paper?, self.style).ok()?.0.best;
        let middle = (speed > 0.0).then(|| paper_speed::middle_exposure(Speed::new(speed)))?;
        let darkest = middle / Stops::new(HALF_A_SCENE).factor();
        let scene = Stops::new(2.0 * HALF_A_SCENE);
        let flash = LuminousExposure::from_lux_seconds(flash.best);
        Some(preflash::compression(darkest, scene, flash).stops())
    }

    /// The times of a strip's or a bracket's steps.
    fn with_steps(&self, mut fact: Fact) -> Fact {
        if let Some(written) = self.exposure.strip.get() {
            let written = &written.value;
            let first = Time::from_seconds(written.from.range.best);
            let totals = strip::totals(first, Stops::new(written.stops.range.best), written.steps);
            let added = strip::additional(&totals);
            fact = fact
                .from("steps of the strip", self.list(&totals))
                .from("one after the other, covering", self.list(&added));
        }
        if let (Some(written), Some(time)) = (self.exposure.bracket.get(), fact.range()) {
            let times = self.bracket(&written.value, time.best);
            fact = fact.from("times of the bracket", self.list(&times));
        }
        fact
    }

    /// Bracket steps are stops of effect, so beyond the threshold their times lie further apart than that.
    fn bracket(&self, bracket: &crate::notebook::Bracket, middle: f64) -> Vec<Time> {
        let step = Stops::new(bracket.stops.range.best);
        let plain = strip::bracket(Time::from_seconds(middle), step, bracket.count);
        let Ok(need) = self.need() else { return plain };
        // The metered time of the middle, by halving: every way of needing rises.
        let (mut low, mut high) = (-30.0, 40.0);
        for _ in 0..80 {
            let x = f64::midpoint(low, high);
            if need.at(x) < middle {
                low = x;
            } else {
                high = x;
            }
        }
        let x = f64::midpoint(low, high);
        let half = (f64::from(bracket.count) - 1.0) / 2.0;
        (0..bracket.count)
            .map(|k| Time::from_seconds(need.at(x + step.stops() * (f64::from(k) - half))))
            .collect()
    }

    fn list(&self, times: &[Time]) -> String {
        let one = |time: &Time| {
            let rounded = strip::rounded(*time).seconds();
            show(
                Range::exact(rounded),
                Dimension::Time,
                Digits::Significant(3),
                self.style,
            )
        };
        times.iter().map(one).collect::<Vec<_>>().join(", ")
    }

    /// What this sheet's paper needs: by the log before it where that can tell, else by the paper's own figures.
    fn need(&self) -> Result<Need<'n>, String> {
        let id = self.exposure.paper.get().ok_or("the paper cannot be read")?;
        let moment = self.exposure.when.get().map(|when| when.value.instant());
        let lesson = self.facts.learned.before(&id.value, moment);
        if let Some(lesson) = lesson.filter(Lesson::tells) {
            let camera = self.exposure.camera.get();
            let camera = camera.and_then(|camera| self.facts.learned.camera(&camera.value));
            return Ok(Need::Log { lesson, camera });
        }
        let paper = self.paper.ok_or("the paper is not known")?;
        let figures = Figures::of(paper, true, self.style)?;
        if figures.speed.low <= 0.0 {
            return Err("a speed of nothing needs endless time".to_owned());
        }
        Ok(Need::Figures(figures))
    }

    /// The metered time at index 1, as a binary logarithm of seconds.
    fn at_index_one(&self) -> Result<Range, String> {
        let value = self.value.clone()?;
        let (_, n) = self.f_number()?;
        let seconds = ev::metered_time_range(value, n, Range::exact(1.0))
            .ok_or("an f-number of nothing has no time")?;
        Ok(seconds.map_monotone(libm::log2))
    }

    fn to_give(&self) -> Result<ToGive<'n>, String> {
        let x = self.at_index_one()?;
        Ok(ToGive::of(self.need()?, x, self.sunlight.as_ref()))
    }

    fn needed(&self, light: &Fact, metered: &Fact, to_give: &ToGive<'n>) -> Fact {
        let mut fact = match &to_give.need {
            Need::Log { lesson, .. } => {
                let mut fact = self.started(Fact::new("time", TO_GIVE, BY_LOG), light);
                for input in paper::lesson_inputs(lesson, &self.facts.learned, self.style) {
                    fact = fact.from(input.name, input.value);
                }
                fact
            }
            Need::Figures(figures) => {
                let mut fact = Fact::new("time", TO_GIVE, BY_FIGURES)
                    .from("time-metered", metered.text(self.style))
                    .source("schwarzschild-1900");
                for input in &figures.inputs {
                    fact = fact.from(input.name.clone(), input.value.clone());
                }
                fact.from("log", self.why_not_by_log())
            }
        };
        if to_give.moved().is_some() {
            let still = show(
                Range::exact(to_give.still.best),
                Dimension::Time,
                Digits::Significant(2),
                self.style,
            );
            fact = fact.from(
                "sun",
                format!("followed over the sky: in its light at the opening it would be {still}"),
            );
        }
        if to_give.until_sunset() {
            fact = fact.from(
                "sunset",
                "in the least light that it may be, the sun goes down before the sheet has enough: the longest time ends there",
            );
        }
        fact.result(to_give.time.clone())
    }

    fn why_not_by_log(&self) -> String {
        let id = self.exposure.paper.get().map_or("", |id| id.value.as_str());
        let moment = self.exposure.when.get().map(|when| when.value.instant());
        let before = self
            .facts
            .learned
            .before(id, moment)
            .map_or(0, |lesson| lesson.before);
        match before {
            0 => "has no judged exposure before this one, so the paper's figures count".to_owned(),
            1 => "has one judged exposure before this one and three are needed, so the paper's figures count"
                .to_owned(),
            n => format!(
                "has {n} judged exposures before this one and three are needed, so the paper's figures count"
            ),
        }
    }

    /// How many full exposures a long exposure gathers in the sun.
    fn gathered(&self, seconds: f64) -> Option<f64> {
        let sunlight = self.sunlight.as_ref()?;
        if !(LONG..=follow::LONGEST).contains(&seconds) {
            return None;
        }
        let (x, need) = (self.at_index_one().ok()?.best, self.need().ok()?);
        follow::gathered(sunlight, &need, x, seconds)
    }
}
