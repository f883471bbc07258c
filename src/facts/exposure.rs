//! Facts of exposures: from the light and the camera to the metered time, and from there to the time to give.

use crate::notebook::{Exposure, Light, Notebook, Paper, Receptor};
use crate::optics::{self, ReciprocityTable, ev, scene};
use crate::units::scalar::{Angle, Time};
use crate::units::{Digits, Dimension, Range, Style, show};

use super::Facts;
use super::fact::{Fact, Measure};

const TIME: Measure = Measure::Amount(Dimension::Time, Digits::Significant(2));

/// What is taken where a paper does not say its reciprocity. No published exponent for paper in a camera is known; the
/// range is wide on purpose (common practice, no source).
const UNKNOWN_RECIPROCITY: (f64, f64, f64) = (1.05, 1.2, 1.35);

pub(super) fn facts(exposure: &Exposure, notebook: &Notebook, facts: &Facts, style: Style) -> Vec<Fact> {
    let light = light(exposure, style);
    let paper = exposure
        .paper
        .get()
        .and_then(|id| notebook.paper(&id.value))
        .map(|(_, paper)| paper);
    let metered = metered(exposure, paper, &light, facts, style);
    let (time, lost) = times(exposure, paper, &metered, style);
    let mut facts = vec![light, metered, time, lost];
    facts.extend(sun(exposure, notebook));
    facts
}

/// Where the sun stood, for the notebook's place.
fn sun(exposure: &Exposure, notebook: &Notebook) -> [Fact; 2] {
    const ANGLE: Measure = Measure::Amount(Dimension::Angle, Digits::Decimals(1));
    let altitude = Fact::new(
        "sun.altitude",
        ANGLE,
        "the sun's centre above the horizon, without refraction",
    )
    .source("reda-2004");
    let azimuth =
        Fact::new("sun.azimuth", ANGLE, "the sun's direction from north, clockwise").source("reda-2004");
    let position = sun_position(exposure, notebook);
    match position {
        Ok((position, written)) => [
            altitude
                .from("when", written.clone())
                .number(Range::exact(position.altitude.degrees())),
            azimuth
                .from("when", written)
                .number(Range::exact(position.azimuth.degrees())),
        ],
        Err(why) => [altitude.gap(why.clone()), azimuth.gap(why)],
    }
}

fn sun_position(
    exposure: &Exposure,
    notebook: &Notebook,
) -> Result<(optics::sun::SunPosition, String), String> {
    let Some(when) = exposure.when.get() else {
        return Err("when it was made cannot be read".to_owned());
    };
    if !when.timed {
        return Err("the time of day was not noted".to_owned());
    }
    let Some(place) = notebook.settings.place.get() else {
        return Err("trayside.yaml does not say the `place`".to_owned());
    };
    let (Some(latitude), Some(longitude)) = (place.latitude.get(), place.longitude.get()) else {
        return Err("the place cannot be read".to_owned());
    };
    let place = optics::sun::Place {
        latitude: Angle::from_degrees(latitude.range.best),
        longitude: Angle::from_degrees(longitude.range.best),
    };
    let position = optics::sun::position(place, when.instant()).map_err(|error| error.to_string())?;
    Ok((position, when.written.clone()))
}

fn light(exposure: &Exposure, style: Style) -> Fact {
    let fact = Fact::new(
        "light",
        Measure::Amount(Dimension::ExposureValue, Digits::Decimals(1)),
        "exposure value at speed 100",
    );
    let Some(written) = exposure.light.get() else {
        return fact.gap(if exposure.light.is_broken() {
            "the light cannot be read"
        } else {
            "the light was not noted"
        });
    };
    match &written.value {
        Light::Value(value) => fact.from("light", value.show(style)).number(value.range),
        Light::Lux(lux) => {
            let receptor = receptor(exposure);
            let fact = fact
                .from("light", lux.show(style))
                .from("receptor constant", format!("{}", receptor.constant()))
                .source("iso-2720");
            match ev::from_lux_range(lux.range, receptor) {
                Some(range) => fact.number(range),
                None => fact.gap("no light has no exposure value"),
            }
        }
        Light::Meter {
            time,
            f_number,
            speed,
        } => {
            let fact = fact
                .from("meter's time", time.show(style))
                .from("meter's f-number", f_number.show(style))
                .from("meter's speed", speed.show(style))
                .source("iso-2720");
            match ev::from_reading_range(time.range, f_number.range, speed.range) {
                Some(range) => fact.number(range),
                None => fact.gap("a reading of nothing has no exposure value"),
            }
        }
        Light::Scene(words) => scene_light(exposure, *words, fact),
    }
}

/// A scene in words by the standard's table; `sun` also reads sky and facing.
fn scene_light(exposure: &Exposure, words: optics::SceneLight, fact: Fact) -> Fact {
    let mut fact = fact.from("scene", words.words()).source("ansi-ph2-7");
    let sky = exposure
        .sky
        .get()
        .and_then(|sky| scene::Sky::from_word(sky.value))
        .unwrap_or_default();
    let facing = exposure
        .facing
        .get()
        .and_then(|facing| scene::Facing::from_word(facing.value));
    if words != optics::SceneLight::Sun {
        return fact.number(words.exposure_value());
    }
    if exposure.sky.get().is_some() {
        fact = fact.from("sky", sky.word());
    }
    // Under cloud the light comes from everywhere, and it matters little which way the subject faces.
    let under_cloud = matches!(sky, scene::Sky::Cloudy | scene::Sky::Overcast);
    let range = match facing {
        Some(facing) if !under_cloud => {
            fact = fact.from("facing", facing.word());
            scene::faced(words, facing)
        }
        _ => words.exposure_value(),
    };
    fact.number(range - Range::exact(sky.loss().stops()))
}

fn receptor(exposure: &Exposure) -> ev::Receptor {
    match exposure.receptor.get().map(|receptor| &receptor.value) {
        Some(Receptor::Flat) => ev::Receptor::Flat,
        Some(Receptor::Constant(constant)) => ev::Receptor::Constant(constant.range.best),
        Some(Receptor::Dome) | None => ev::Receptor::Hemispherical,
    }
}

fn metered(exposure: &Exposure, paper: Option<&Paper>, light: &Fact, facts: &Facts, style: Style) -> Fact {
    let mut fact = Fact::new(
        "time-metered",
        TIME,
        "f-number squared, times 100, over speed times two to the exposure value",
    )
    .source("iso-2720");
    let Some(light_value) = light.range() else {
        return fact.gap(light.how());
    };
    fact = fact.from("light", light.text(style));
    let Some(camera) = exposure.camera.get() else {
        return fact.gap("the camera cannot be read");
    };
    let Some(f_number) = facts.get(&camera.value, "f-number") else {
        return fact.gap(format!("`{}` is no camera of this notebook", camera.value));
    };
    let Some(n) = f_number.range() else {
        return fact.gap(format!(
            "the f-number of `{}` is not known: {}",
            camera.value,
            f_number.how()
        ));
    };
    fact = fact.from(format!("{}.f-number", camera.value), f_number.text(style));
    let Some(paper) = paper else {
        return fact.gap("the paper is not known");
    };
    let Some(speed) = paper.speed.get() else {
        return fact.gap(
            "the paper does not say its camera speed: make a test strip, or guess 6 and mark it guessed",
        );
    };
    fact = fact.from("speed", speed.show(style));
    let filtered = match exposure.filter.get() {
        Some(filter) => {
            fact = fact.from("filter", filter.show(style));
            light_value - filter.range
        }
        None => light_value,
    };
    match ev::metered_time_range(filtered, n, speed.range) {
        Some(range) => fact.number(range),
        None => fact.gap("a speed of nothing needs endless time"),
    }
}

/// The time to give, and the stops that reciprocity takes.
fn times(exposure: &Exposure, paper: Option<&Paper>, metered: &Fact, style: Style) -> (Fact, Fact) {
    let lost = Fact::new(
        "stops-lost",
        Measure::Amount(Dimension::Stops, Digits::Decimals(1)),
        "binary logarithm of needed over metered time",
    );
    let time = Fact::new(
        "time",
        TIME,
        "metered time, lengthened by the paper's reciprocity",
    );
    let corrected = corrected(paper, metered, style, time);
    let lost = match (corrected.range(), metered.range()) {
        (Some(needed), Some(metered)) if metered.low > 0.0 => lost.number(Range::new(
            libm::log2(needed.low / metered.low),
            libm::log2(needed.best / metered.best),
            libm::log2(needed.high / metered.high),
        )),
        _ => lost.gap(corrected.how()),
    };
    let time = match exposure.time.get() {
        Some(given) => Fact::new("time", TIME, "as given")
            .from("time", given.show(style))
            .number(given.range),
        None if exposure.time.is_broken() => {
            Fact::new("time", TIME, "as given").gap("the time cannot be read")
        }
        None => corrected,
    };
    (time, lost)
}

fn corrected(paper: Option<&Paper>, metered: &Fact, style: Style, fact: Fact) -> Fact {
    let (Some(paper), Some(range)) = (paper, metered.range()) else {
        return fact.gap(metered.how());
    };
    let fact = fact.from("time-metered", metered.text(style));
    if !paper.times.is_empty() {
        let seconds = |amount: &crate::units::Amount| Time::from_seconds(amount.range.best);
        let mut pairs: Vec<(Time, Time)> = paper
            .times
            .iter()
            .map(|(metered, needed)| (seconds(metered), seconds(needed)))
            .collect();
        pairs.sort_by(|a, b| a.0.seconds().total_cmp(&b.0.seconds()));
        let fact = fact.from("times", format!("{} pairs of the paper's table", pairs.len()));
        return match ReciprocityTable::new(pairs) {
            Ok(table) => {
                fact.number(range.map_monotone(|s| table.corrected(Time::from_seconds(s)).seconds()))
            }
            Err(error) => fact.gap(error.to_string()),
        };
    }
    let threshold = paper
        .threshold
        .get()
        .map_or(1.0, |threshold| threshold.range.best);
    let (exponent, fact) = match paper.reciprocity.get() {
        Some(written) => (
            written.p,
            fact.from(
                "reciprocity",
                format!(
                    "p {}",
                    crate::units::number(written.p, Digits::Significant(3), style)
                ),
            ),
        ),
        None if paper.reciprocity.is_broken() => return fact.gap("the paper's reciprocity cannot be read"),
        None => {
            let (low, best, high) = UNKNOWN_RECIPROCITY;
            let fact = fact.from(
                "reciprocity",
                "p 1.05–1.35, assumed: the paper does not say (common practice, no source)",
            );
            (Range::new(low, best, high), fact)
        }
    };
    let fact = fact.from(
        "threshold",
        show(
            Range::exact(threshold),
            Dimension::Time,
            Digits::Significant(2),
            style,
        ),
    );
    if threshold <= 0.0 {
        return fact.gap("the threshold is not above zero");
    }
    fact.source("schwarzschild-1900")
        .number(optics::reciprocity::power_range(
            range,
            exponent,
            Time::from_seconds(threshold),
        ))
}

/// Facts of papers: what exposures are computed with.
pub(super) fn paper_facts(paper: &Paper, style: Style) -> Vec<Fact> {
    let speed = Fact::new(
        "speed",
        Measure::Amount(Dimension::Speed, Digits::Significant(2)),
        "as written",
    );
    let speed = match paper.speed.get() {
        Some(written) => speed.from("speed", written.show(style)).number(written.range),
        None if paper.speed.is_broken() => speed.gap("the speed cannot be read"),
        None => {
            speed.gap("not noted: a camera speed comes from your own strips, the box speed is for printing")
        }
    };
    let p = Fact::new(
        "reciprocity",
        Measure::Amount(Dimension::Number, Digits::Significant(3)),
        "exponent p by which times beyond the threshold lengthen",
    );
    let p = match paper.reciprocity.get() {
        Some(written) => p.from("reciprocity", written.written.clone()).number(written.p),
        None if paper.reciprocity.is_broken() => p.gap("the reciprocity cannot be read"),
        None => p.gap("not noted"),
    };
    vec![speed, p]
}
