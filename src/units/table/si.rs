//! Mass, volume, length, area, time, temperature and angle, as the SI has them and as inches and pounds have them.

use crate::units::unit::Place;
use crate::units::{Dimension, Ratio, Unit, UnitSource};

use Dimension::{Angle, Area, Length, Mass, Temperature, TemperatureDifference, Time, Volume};
use UnitSource::{CommonPractice, NistSp811, SiBrochure};

/// The international inch: 25.4 mm exactly.
pub(super) const INCH: Ratio = Ratio::new(254, 10);
/// The avoirdupois pound: 453.592 37 g exactly.
const POUND: Ratio = Ratio::new(45_359_237, 100_000);
/// A degree Fahrenheit in kelvin.
const FAHRENHEIT_STEP: Ratio = Ratio::new(5, 9);
const DAY_SECONDS: i128 = 86_400;

pub(crate) static MILLIGRAM: &Unit = &UNITS[1];
pub(crate) static GRAM: &Unit = &UNITS[0];
pub(crate) static KILOGRAM: &Unit = &UNITS[2];
pub(crate) static LITRE: &Unit = &UNITS[7];
pub(crate) static MILLILITRE: &Unit = &UNITS[8];
pub(crate) static SECOND: &Unit = &UNITS[13];
pub(crate) static MINUTE: &Unit = &UNITS[14];
pub(crate) static HOUR: &Unit = &UNITS[15];
pub(crate) static DAY: &Unit = &UNITS[16];

pub(super) static UNITS: &[Unit] = &[
    // mass, in grams
    Unit::row(
        "g",
        ["gram", "grams"],
        &["gramme", "grammes"],
        Mass,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "mg",
        ["milligram", "milligrams"],
        &[],
        Mass,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    Unit::row(
        "kg",
        ["kilogram", "kilograms"],
        &["kilo", "kilos"],
        Mass,
        Ratio::whole(1000),
        SiBrochure,
    ),
    Unit::row(
        "µg",
        ["microgram", "micrograms"],
        &["μg", "ug", "mcg"],
        Mass,
        Ratio::new(1, 1_000_000),
        SiBrochure,
    ),
    Unit::row(
        "oz",
        ["ounce", "ounces"],
        &["ozs", "ounce avoirdupois"],
        Mass,
        POUND.over(Ratio::whole(16)),
        NistSp811,
    ),
    Unit::row("lb", ["pound", "pounds"], &["lbs"], Mass, POUND, NistSp811),
    Unit::row(
        "grain",
        ["grain", "grains"],
        &[],
        Mass,
        POUND.over(Ratio::whole(7000)),
        NistSp811,
    )
    .word(),
    // volume, in litres
    Unit::row(
        "l",
        ["litre", "litres"],
        &["L", "liter", "liters", "ltr", "dm³", "dm3"],
        Volume,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "ml",
        ["millilitre", "millilitres"],
        &[
            "mL",
            "Ml",
            "ML",
            "milliliter",
            "milliliters",
            "mls",
            "cm³",
            "cm3",
            "cc",
            "ccm",
        ],
        Volume,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    Unit::row(
        "cl",
        ["centilitre", "centilitres"],
        &["cL", "centiliter", "centiliters"],
        Volume,
        Ratio::new(1, 100),
        SiBrochure,
    ),
    Unit::row(
        "dl",
        ["decilitre", "decilitres"],
        &["dL", "deciliter", "deciliters"],
        Volume,
        Ratio::new(1, 10),
        SiBrochure,
    ),
    Unit::row(
        "µl",
        ["microlitre", "microlitres"],
        &["µL", "μl", "μL", "ul", "uL", "microliter", "microliters"],
        Volume,
        Ratio::new(1, 1_000_000),
        SiBrochure,
    ),
    Unit::row(
        "m³",
        ["cubic metre", "cubic metres"],
        &["m3", "cubic meter", "cubic meters"],
        Volume,
        Ratio::whole(1000),
        SiBrochure,
    ),
    // time, in seconds
    Unit::row(
        "s",
        ["second", "seconds"],
        &["sec", "secs"],
        Time,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "min",
        ["minute", "minutes"],
        &["mins"],
        Time,
        Ratio::whole(60),
        SiBrochure,
    ),
    Unit::row(
        "h",
        ["hour", "hours"],
        &["hr", "hrs"],
        Time,
        Ratio::whole(3600),
        SiBrochure,
    ),
    Unit::row(
        "day",
        ["day", "days"],
        &["d"],
        Time,
        Ratio::whole(DAY_SECONDS),
        SiBrochure,
    )
    .word(),
    Unit::row(
        "week",
        ["week", "weeks"],
        &["wk", "wks"],
        Time,
        Ratio::whole(7 * DAY_SECONDS),
        CommonPractice,
    )
    .word(),
    // A month is a twelfth of a year: good enough for how long a bottle keeps.
    Unit::row(
        "month",
        ["month", "months"],
        &["mo", "mos"],
        Time,
        Ratio::whole(365 * DAY_SECONDS / 12),
        CommonPractice,
    )
    .word(),
    // The year of 365 days.
    Unit::row(
        "year",
        ["year", "years"],
        &["yr", "yrs"],
        Time,
        Ratio::whole(365 * DAY_SECONDS),
        NistSp811,
    )
    .word(),
    Unit::row(
        "ms",
        ["millisecond", "milliseconds"],
        &["msec"],
        Time,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    // length, in millimetres
    Unit::row(
        "mm",
        ["millimetre", "millimetres"],
        &["millimeter", "millimeters"],
        Length,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "cm",
        ["centimetre", "centimetres"],
        &["centimeter", "centimeters"],
        Length,
        Ratio::whole(10),
        SiBrochure,
    ),
    Unit::row(
        "m",
        ["metre", "metres"],
        &["meter", "meters"],
        Length,
        Ratio::whole(1000),
        SiBrochure,
    ),
    Unit::row(
        "µm",
        ["micrometre", "micrometres"],
        &["μm", "um", "micrometer", "micrometers", "micron", "microns"],
        Length,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    Unit::row(
        "nm",
        ["nanometre", "nanometres"],
        &["nanometer", "nanometers"],
        Length,
        Ratio::new(1, 1_000_000),
        SiBrochure,
    ),
    Unit::row(
        "km",
        ["kilometre", "kilometres"],
        &["kilometer", "kilometers"],
        Length,
        Ratio::whole(1_000_000),
        SiBrochure,
    ),
    Unit::row(
        "in",
        ["inch", "inches"],
        &["in.", "\"", "″", "''", "”"],
        Length,
        INCH,
        NistSp811,
    ),
    Unit::row(
        "ft",
        ["foot", "feet"],
        &["ft.", "′", "'"],
        Length,
        INCH.times(Ratio::whole(12)),
        NistSp811,
    ),
    Unit::row(
        "yd",
        ["yard", "yards"],
        &["yds"],
        Length,
        INCH.times(Ratio::whole(36)),
        NistSp811,
    ),
    Unit::row(
        "thou",
        ["thou", "thou"],
        &["thousandth of an inch"],
        Length,
        INCH.over(Ratio::whole(1000)),
        NistSp811,
    ),
    // area, in square millimetres
    Unit::row(
        "mm²",
        ["square millimetre", "square millimetres"],
        &["mm2", "sq mm", "square millimeters"],
        Area,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "cm²",
        ["square centimetre", "square centimetres"],
        &["cm2", "sq cm", "square centimeters"],
        Area,
        Ratio::whole(100),
        SiBrochure,
    ),
    Unit::row(
        "m²",
        ["square metre", "square metres"],
        &["m2", "sq m", "square meters"],
        Area,
        Ratio::whole(1_000_000),
        SiBrochure,
    ),
    Unit::row(
        "in²",
        ["square inch", "square inches"],
        &["in2", "sq in", "sq. in."],
        Area,
        INCH.times(INCH),
        NistSp811,
    ),
    // temperature, in degrees Celsius
    Unit::row(
        "°C",
        ["degree Celsius", "degrees Celsius"],
        &[
            "C",
            "℃",
            "° C",
            "ºC",
            "º C",
            "deg C",
            "degC",
            "degrees C",
            "Celsius",
            "celsius",
        ],
        Temperature,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "°F",
        ["degree Fahrenheit", "degrees Fahrenheit"],
        &[
            "F",
            "℉",
            "° F",
            "ºF",
            "º F",
            "deg F",
            "degF",
            "degrees F",
            "Fahrenheit",
            "fahrenheit",
        ],
        Temperature,
        FAHRENHEIT_STEP,
        NistSp811,
    )
    .shifted(Ratio::whole(-32)),
    Unit::row(
        "K",
        ["kelvin", "kelvins"],
        &[],
        Temperature,
        Ratio::ONE,
        SiBrochure,
    )
    .shifted(Ratio::new(-27_315, 100)),
    // temperature difference, in kelvin
    Unit::row(
        "K",
        ["kelvin", "kelvins"],
        &[],
        TemperatureDifference,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "°C",
        ["degree Celsius", "degrees Celsius"],
        &["C", "℃", "° C", "ºC", "deg C", "degrees C"],
        TemperatureDifference,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "°F",
        ["degree Fahrenheit", "degrees Fahrenheit"],
        &["F", "℉", "° F", "ºF", "deg F", "degrees F"],
        TemperatureDifference,
        FAHRENHEIT_STEP,
        NistSp811,
    ),
    // angle, in degrees
    Unit::row(
        "°",
        ["degree", "degrees"],
        &["deg", "º"],
        Angle,
        Ratio::ONE,
        SiBrochure,
    )
    .placed(Place::Close),
];
