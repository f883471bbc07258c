//! Apertures, exposure values, light, speed and resolution.

use crate::units::unit::Place;
use crate::units::{Dimension, Ratio, Unit, UnitSource};

use Dimension::{
    ColourTemperature, ExposureValue, FNumber, Illuminance, LuminousExposure, Resolution, Speed, Stops,
};
use UnitSource::{Definition, NistSp811, SiBrochure};

pub(crate) static F_NUMBER: &Unit = &UNITS[0];
pub(crate) static EV: &Unit = &UNITS[1];
pub(crate) static SPEED: &Unit = &UNITS[2];
pub(crate) static ISO: &Unit = &UNITS[3];

pub(super) static UNITS: &[Unit] = &[
    Unit::row(
        "f/",
        ["f-number", "f-numbers"],
        &[],
        FNumber,
        Ratio::ONE,
        Definition,
    )
    .placed(Place::Against),
    Unit::row(
        "EV",
        ["exposure value", "exposure values"],
        &["Ev", "ev"],
        ExposureValue,
        Ratio::ONE,
        Definition,
    )
    .placed(Place::Before),
    Unit::row(
        "EI",
        ["exposure index", "exposure indices"],
        &["ei"],
        Speed,
        Ratio::ONE,
        Definition,
    )
    .placed(Place::Before),
    Unit::row(
        "ISO",
        ["ISO speed", "ISO speeds"],
        &["iso", "Iso"],
        Speed,
        Ratio::ONE,
        Definition,
    )
    .placed(Place::Before),
    Unit::row("stop", ["stop", "stops"], &[], Stops, Ratio::ONE, Definition).word(),
    Unit::row(
        "lx",
        ["lux", "lux"],
        &["Lux"],
        Illuminance,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "klx",
        ["kilolux", "kilolux"],
        &[],
        Illuminance,
        Ratio::whole(1000),
        SiBrochure,
    ),
    // One lumen on a square foot.
    Unit::row(
        "fc",
        ["foot-candle", "foot-candles"],
        &["footcandle", "footcandles", "foot candle", "foot candles", "ftc"],
        Illuminance,
        Ratio::new(100_000_000, 9_290_304),
        NistSp811,
    ),
    Unit::row(
        "lx s",
        ["lux second", "lux seconds"],
        &["lx·s", "lx.s", "lxs", "lux-second", "lux-seconds", "lux s"],
        LuminousExposure,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "K",
        ["kelvin", "kelvins"],
        &[],
        ColourTemperature,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "dpi",
        ["dot per inch", "dots per inch"],
        &["ppi", "DPI"],
        Resolution,
        Ratio::ONE,
        Definition,
    ),
];
