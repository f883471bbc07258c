//! Where the sun stood at an exposure.

use crate::notebook::{Exposure, Notebook};
use crate::optics::sun;
use crate::units::{Digits, Dimension, Range};

use super::fact::{Fact, Measure};
use super::light;

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
