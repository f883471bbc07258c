//! Where the sun stood at an exposure, and the way that it went over the sky during a long one.

use crate::notebook::{Exposure, Notebook};
use crate::optics::{ev, sun};
use crate::units::scalar::{ExposureValue, Illuminance, Time};
use crate::units::{Digits, Dimension, Range};

use super::fact::{Fact, Measure};
use super::light::{self, Sunlight};

/// How often the sun is looked up; between, its altitude goes straight.
const LOOK: f64 = 600.0;

/// The sun's altitudes over a long exposure.
pub(super) struct Way {
    altitudes: Vec<f64>,
}

impl Way {
    pub(super) fn of(sunlight: &Sunlight, seconds: f64) -> Self {
        let looks = libm::ceil(seconds / LOOK) as usize + 1;
        let altitudes = (0..=looks)
            .map_while(|look| sunlight.altitude(look as f64 * LOOK))
            .collect();
        Self { altitudes }
    }

    pub(super) fn light(&self, sunlight: &Sunlight, time: Time) -> Illuminance {
        let at = (time.seconds() / LOOK).max(0.0);
        let before = libm::floor(at) as usize;
        let (Some(from), Some(to)) = (self.altitudes.get(before), self.altitudes.get(before + 1)) else {
            return Illuminance::ZERO;
        };
        let altitude = from + (to - from) * (at - before as f64);
        let value = ExposureValue::new(sunlight.value(altitude));
        ev::to_lux(value, ev::Receptor::default())
    }
}

/// Where the sun stood, for the notebook's place.
pub(super) fn facts(exposure: &Exposure, notebook: &Notebook) -> [Fact; 2] {
    const ANGLE: Measure = Measure::Amount(Dimension::Angle, Digits::Decimals(1));
    let altitude = Fact::new(
        "sun.altitude",
        ANGLE,
        "the sun's centre above the horizon, without refraction",
    )
    .source("reda-2004");
    let azimuth =
        Fact::new("sun.azimuth", ANGLE, "the sun's direction from north, clockwise").source("reda-2004");
    match position(exposure, notebook) {
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

fn position(exposure: &Exposure, notebook: &Notebook) -> Result<(sun::SunPosition, String), String> {
    let Some(when) = exposure.when.get() else {
        return Err("when it was made cannot be read".to_owned());
    };
    if !when.value.timed {
        return Err("the time of day was not noted".to_owned());
    }
    let Some(place) = notebook.settings.place.get() else {
        return Err("trayside.yaml does not say the `place`".to_owned());
    };
    let place = light::place(place).ok_or("the place cannot be read")?;
    let position = sun::position(place, when.value.instant()).map_err(|error| error.to_string())?;
    Ok((position, when.value.written.clone()))
}
