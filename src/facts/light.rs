//! The light of an exposure: as noted, by the exposure table, or from the sun's place in the sky; and what stands between
//! the meter and the paper.

use crate::notebook::{Exposure, Figure, Light, Notebook, Paper, Place, Receptor};
use crate::optics::{self, Sees, colour, ev, facing, scene, sun};
use crate::units::scalar::Angle;
use crate::units::{Digits, Dimension, Range, Style, number, show};

use super::fact::{Fact, Input, Measure};
use super::holes;

const VALUE: Measure = Measure::Amount(Dimension::ExposureValue, Digits::Decimals(1));

/// The altitude of the sun's centre at which its upper limb meets the horizon. Source: see [`sun::apparent_altitude`].
pub(super) const SUNSET: f64 = -0.833;

/// The exposure value at speed 100.
pub(super) fn light(exposure: &Exposure, notebook: &Notebook, style: Style) -> Fact {
    let fact = Fact::new("light", VALUE, "exposure value at speed 100");
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
        Light::Scene(words) => match Sunlight::of(exposure, notebook) {
            Some(sunlight) => computed(exposure, &sunlight, fact, style),
            None => by_table(exposure, *words, fact),
        },
    }
}

/// The sun's light, with a word where the exposure table says something else.
fn computed(exposure: &Exposure, sunlight: &Sunlight, fact: Fact, style: Style) -> Fact {
    let fact = fact
        .from("scene", "sun")
        .from("when", sunlight.written.clone())
        .from("sky", sunlight.sky.word())
        .from("facing", sunlight.facing.word())
        .source("reda-2004");
    let Some(altitude) = sunlight.altitude(0.0) else {
        return fact.gap("the sun's place is not known for that time");
    };
    let mut fact = fact.from(
        "sun",
        format!(
            "{} above the horizon",
            show(
                Range::exact(altitude),
                Dimension::Angle,
                Digits::Decimals(0),
                style
            )
        ),
    );
    if altitude < SUNSET {
        return fact.gap("the sun was below the horizon");
    }
    let range = sunlight.value(altitude);
    let table = table_value(exposure, optics::SceneLight::Sun).best;
    let value = optics_value(range.best);
    if facing::disagree(value, optics_value(table)) {
        fact = fact.from(
            "exposure table",
            format!(
                "EV {} for the same words: more than a stop apart, so meter or make a strip",
                number(Range::exact(table), Digits::Decimals(1), style)
            ),
        );
    }
    fact.number(range)
}

fn optics_value(value: f64) -> crate::units::scalar::ExposureValue {
    crate::units::scalar::ExposureValue::new(value)
}

/// A scene in words by the standard's table; `sun` also reads sky and facing.
fn by_table(exposure: &Exposure, words: optics::SceneLight, fact: Fact) -> Fact {
    let mut fact = fact.from("scene", words.words()).source("ansi-ph2-7");
    if words == optics::SceneLight::Sun {
        if exposure.sky.get().is_some() {
            fact = fact.from("sky", sky(exposure).word());
        }
        if let Some(facing) = written_facing(exposure) {
            fact = fact.from("facing", facing.word());
        }
    }
    fact.number(table_value(exposure, words))
}

/// What the exposure table says.
fn table_value(exposure: &Exposure, words: optics::SceneLight) -> Range {
    if words != optics::SceneLight::Sun {
        return words.exposure_value();
    }
    let sky = sky(exposure);
    // Under cloud the light comes from everywhere, and it matters little which way the subject faces.
    let under_cloud = matches!(sky, scene::Sky::Cloudy | scene::Sky::Overcast);
    let range = match written_facing(exposure) {
        Some(facing) if !under_cloud => scene::faced(words, facing),
        _ => words.exposure_value(),
    };
    range - Range::exact(sky.loss().stops())
}

fn sky(exposure: &Exposure) -> scene::Sky {
    let word = exposure.sky.get();
    word.and_then(|sky| scene::Sky::from_word(sky.value))
        .unwrap_or_default()
}

fn written_facing(exposure: &Exposure) -> Option<scene::Facing> {
    scene::Facing::from_word(exposure.facing.get()?.value)
}

fn receptor(exposure: &Exposure) -> ev::Receptor {
    match exposure.receptor.get().map(|receptor| &receptor.value) {
        Some(Receptor::Flat) => ev::Receptor::Flat,
        Some(Receptor::Constant(constant)) => ev::Receptor::Constant(constant.range.best),
        Some(Receptor::Dome) | None => ev::Receptor::Hemispherical,
    }
}

/// The sun over a subject from the opening on. Only for the light `sun` with a known place, date and time of day.
#[derive(Debug, Clone)]
pub struct Sunlight {
    place: sun::Place,
    opened: jiff::Timestamp,
    written: String,
    sky: scene::Sky,
    facing: scene::Facing,
}

impl Sunlight {
    /// The sunlight of an exposure, where its light is `sun` and where and when are known.
    pub fn of(exposure: &Exposure, notebook: &Notebook) -> Option<Self> {
        let light = &exposure.light.get()?.value;
        if *light != Light::Scene(optics::SceneLight::Sun) {
            return None;
        }
        let when = &exposure.when.get()?.value;
        Some(Self {
            place: place(notebook.settings.place.get()?)?,
            opened: when.timed.then(|| when.instant())?,
            written: when.written.clone(),
            sky: sky(exposure),
            facing: written_facing(exposure).unwrap_or_default(),
        })
    }

    /// The sun's true altitude in degrees, seconds after the opening.
    pub fn altitude(&self, seconds: f64) -> Option<f64> {
        let after = jiff::SignedDuration::try_from_secs_f64(seconds).ok()?;
        let instant = self.opened.checked_add(after).ok()?;
        let position = sun::position(self.place, instant).ok()?;
        Some(position.altitude.degrees())
    }

    /// Whether the sun stands below the horizon at the opening.
    pub fn is_night(&self) -> bool {
        self.altitude(0.0).is_some_and(|altitude| altitude < SUNSET)
    }

    /// The exposure value at an altitude.
    pub(super) fn value(&self, altitude: f64) -> Range {
        facing::exposure_value(Angle::from_degrees(altitude), self.facing, self.sky)
    }
}

/// A place, where both its coordinates could be read.
pub(super) fn place(place: &Place) -> Option<sun::Place> {
    Some(sun::Place {
        latitude: Angle::from_degrees(place.latitude.get()?.range.best),
        longitude: Angle::from_degrees(place.longitude.get()?.range.best),
    })
}

/// What filter, colour and more than one hole make of the light between meter and paper.
pub(super) struct Between {
    /// In stops; negative where the paper sees more than the meter. Or why it is not known.
    pub(super) stops: Result<Range, String>,
    /// As inputs of a fact.
    pub(super) inputs: Vec<Input>,
}

impl Between {
    /// The exposure value that the paper sees.
    pub(super) fn seen(&self, light: Range) -> Result<Range, String> {
        self.stops.clone().map(|stops| light - stops)
    }

    fn takes(&mut self, name: &str, value: String, stops: Result<Range, String>) {
        let so_far = std::mem::replace(&mut self.stops, Ok(Range::exact(0.0)));
        self.stops = so_far.and_then(|so_far| Ok(so_far + stops?));
        self.inputs.push(Input {
            name: name.to_owned(),
            value,
        });
    }
}

/// The stops that filter and colour take, less those that more holes than one give where their images lie over each other.
pub(super) fn between(exposure: &Exposure, paper: Option<&Paper>, notebook: &Notebook) -> Between {
    let style = notebook.settings.style;
    let mut between = Between {
        stops: Ok(Range::exact(0.0)),
        inputs: Vec::new(),
    };
    let camera = exposure.camera.get().and_then(|id| notebook.camera(&id.value));
    if let Some((stops, value)) = camera.and_then(|(_, camera)| holes::given(camera, exposure, style)) {
        between.takes("holes", value, Ok(Range::exact(0.0) - stops));
    }
    if let Some(filter) = exposure.filter.get() {
        between.takes("filter", filter.show(style), Ok(filter.range));
    }
    if let Some(light) = exposure.colour.get() {
        let (value, stops) = by_colour(light, paper, style);
        between.takes("colour", value, stops);
    }
    if exposure.filter.is_broken() {
        between.stops = Err("the filter cannot be read".to_owned());
    }
    if exposure.colour.is_broken() {
        between.stops = Err("the light's colour cannot be read".to_owned());
    }
    between
}

/// What a paper sees, where it says so.
fn sees(paper: &Paper) -> Option<Sees> {
    Sees::from_words(paper.sees.get()?.value)
}

/// The stops that the light's colour costs this paper, and the same in words.
fn by_colour(light: &Figure, paper: Option<&Paper>, style: Style) -> (String, Result<Range, String>) {
    let sees = paper.and_then(sees);
    let Some(range) = colour::correction_range(sees, light.range) else {
        let [lowest, highest] = colour::COLOURS.map(|kelvin| {
            show(
                Range::exact(kelvin),
                Dimension::ColourTemperature,
                Digits::Significant(3),
                style,
            )
        });
        let why = format!("no light for a picture has that colour: it lies between {lowest} and {highest}");
        return (format!("{}: {why}", light.show(style)), Err(why));
    };
    let stops = show(range, Dimension::Stops, Digits::Decimals(1), style);
    let on = sees.map_or_else(
        || "as the paper does not say what it sees".to_owned(),
        |sees| format!("on paper that sees {}", sees.words()),
    );
    (format!("{}: {stops} {on}", light.show(style)), Ok(range))
}
