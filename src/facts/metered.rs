//! What a meter says for a sheet, and the stops that reciprocity adds to it.

use crate::optics::ev;
use crate::units::{Digits, Dimension, Range, show};

use super::exposure::Sheet;
use super::fact::{Fact, Measure};
use super::need::Need;
use super::paper::{self, Figures, learned_speed};
use super::to_give::ToGive;

const TIME: Measure = Measure::Amount(Dimension::Time, Digits::Significant(2));

impl<'n> Sheet<'n> {
    /// What a meter says, set to the speed that the time is computed with.
    pub(super) fn metered(&self, light: &Fact, to_give: Option<&ToGive<'n>>) -> Fact {
        let fact = Fact::new(
            "time-metered",
            TIME,
            "f-number squared, times 100, over speed times two to the exposure value",
        )
        .source("iso-2720");
        let mut fact = self.started(fact, light);
        if let Some(to_give) = to_give
            && let Need::Log { lesson, camera } = &to_give.need
        {
            let speed = learned_speed(&lesson.fit);
            let words = show(speed, Dimension::Speed, Digits::Significant(2), self.style);
            fact = fact.from("speed", format!("{words}, from the log"));
            let learned = paper::lesson_inputs(lesson, &self.facts.learned, self.style);
            for input in learned.into_iter().filter(|input| input.name == "camera") {
                fact = fact.from(input.name, input.value);
            }
            return self
                .with_the_sun(fact, to_give)
                .number(lesson.fit.metered_at(to_give.x, *camera));
        }
        let result = || -> Result<Range, String> {
            let value = self.value.clone()?;
            let (_, n) = self.f_number()?;
            let paper = self.paper.ok_or("the paper is not known")?;
            let (speed, _) = paper::camera_speed(paper, self.style)?;
            ev::metered_time_range(value, n, speed)
                .ok_or_else(|| "a speed of nothing needs endless time".to_owned())
        };
        if let Some(Ok((_, words))) = self.paper.map(|paper| paper::camera_speed(paper, self.style)) {
            fact = fact.from("speed", words);
        }
        if let Some(to_give) = to_give {
            fact = self.with_the_sun(fact, to_give);
        }
        fact.result(result())
    }

    /// What holds for the light at the opening says so, where the sun's way changes the time.
    fn with_the_sun(&self, fact: Fact, to_give: &ToGive<'_>) -> Fact {
        match (to_give.moved(), &to_give.time) {
            (Some(stops), _) => fact.from(
                "sun",
                format!(
                    "as it stands at the opening: the time follows it, which makes {} of difference",
                    self.stops(stops)
                ),
            ),
            (None, Err(why)) if self.sunlight.is_some() => {
                fact.from("sun", format!("as it stands at the opening: {why}"))
            }
            _ => fact,
        }
    }

    /// The stops that reciprocity takes, by what the time is computed with.
    pub(super) fn lost(&self, metered: &Fact, to_give: Option<&ToGive<'n>>) -> Fact {
        let fact = Fact::new(
            "stops-lost",
            Measure::Amount(Dimension::Stops, Digits::Decimals(1)),
            "binary logarithm of needed over metered time, in the same light",
        );
        let Some(range) = metered.range() else {
            return fact.gap(metered.how());
        };
        let mut fact = fact
            .from("time-metered", metered.text(self.style))
            .source("schwarzschild-1900");
        if let Some(to_give) = to_give {
            fact = self.with_the_sun(fact, to_give);
            if let Need::Log { lesson, camera } = &to_give.need {
                for input in paper::lesson_inputs(lesson, &self.facts.learned, self.style) {
                    fact = fact.from(input.name, input.value);
                }
                return fact.number(lesson.fit.lost_at(to_give.x, *camera));
            }
        }
        let Some(paper) = self.paper else {
            return fact.gap("the paper is not known");
        };
        match Figures::of(paper, false, self.style) {
            Err(why) => fact.gap(why),
            Ok(_) if range.low <= 0.0 => fact.gap("a time of nothing loses nothing"),
            Ok(figures) => {
                let needed = figures.corrected(range);
                for input in figures.inputs {
                    fact = fact.from(input.name, input.value);
                }
                fact.number(Range::new(
                    libm::log2(needed.low / range.low),
                    libm::log2(needed.best / range.best),
                    libm::log2(needed.high / range.high),
                ))
            }
        }
    }
}
