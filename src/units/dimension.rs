//! The kinds of amounts, their canonical units, and their words.

/// What an amount measures. Every dimension has one canonical unit, in which [`crate::units::Range`] counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dimension {
    /// Grams.
    Mass,
    /// Moles.
    AmountOfSubstance,
    /// Litres.
    Volume,
    /// Pieces: tablets, tea bags, sheets. The unit carries the word.
    Count,
    /// Millimetres.
    Length,
    /// Square millimetres.
    Area,
    /// Seconds.
    Time,
    /// Degrees Celsius, as a point on the scale.
    Temperature,
    /// Kelvin, as a step between two temperatures.
    TemperatureDifference,
    /// Degrees of arc.
    Angle,
    /// Grams per litre of solution; `% w/v` is ten of them.
    MassConcentration,
    /// Grams per gram of mixture, from 0 to 1: `% w/w`, `g/kg`.
    MassFraction,
    /// Litres per litre of mixture, from 0 to 1: `% v/v`.
    VolumeFraction,
    /// A bare `%`, as a fraction of one; of what, it does not say.
    Share,
    /// Moles per litre of solution.
    Molarity,
    /// Moles per kilogram of water.
    Molality,
    /// Parts of water to one part of stock: `1+9` is 9.
    Dilution,
    /// The number below the line of `f/216`.
    FNumber,
    /// Exposure value at speed 100, as in `EV 12.5`.
    ExposureValue,
    /// Lux.
    Illuminance,
    /// Lux seconds.
    LuminousExposure,
    /// Stops: doublings of exposure.
    Stops,
    /// Exposure index or ISO speed on the arithmetic scale.
    Speed,
    /// Kelvin of a light's colour.
    ColourTemperature,
    /// Standard atmospheres.
    Pressure,
    /// Grams per millilitre.
    Density,
    /// Grams per square metre.
    MassPerArea,
    /// Millilitres per square metre.
    VolumePerArea,
    /// A plain number.
    Number,
    /// pH.
    PH,
    /// Dots per inch.
    Resolution,
}

impl Dimension {
    /// Every dimension.
    pub const ALL: [Self; 31] = [
        Self::Mass,
        Self::AmountOfSubstance,
        Self::Volume,
        Self::Count,
        Self::Length,
        Self::Area,
        Self::Time,
        Self::Temperature,
        Self::TemperatureDifference,
        Self::Angle,
        Self::MassConcentration,
        Self::MassFraction,
        Self::VolumeFraction,
        Self::Share,
        Self::Molarity,
        Self::Molality,
        Self::Dilution,
        Self::FNumber,
        Self::ExposureValue,
        Self::Illuminance,
        Self::LuminousExposure,
        Self::Stops,
        Self::Speed,
        Self::ColourTemperature,
        Self::Pressure,
        Self::Density,
        Self::MassPerArea,
        Self::VolumePerArea,
        Self::Number,
        Self::PH,
        Self::Resolution,
    ];

    /// Its word, without an article.
    pub fn word(self) -> &'static str {
        let named = self.with_article();
        named.split_once(' ').map_or(named, |(_, word)| word)
    }

    /// Its word with the indefinite article, as it stands in messages.
    pub fn with_article(self) -> &'static str {
        match self {
            Self::Mass => "a mass",
            Self::AmountOfSubstance => "an amount of substance",
            Self::Volume => "a volume",
            Self::Count => "a count",
            Self::Length => "a length",
            Self::Area => "an area",
            Self::Time => "a time",
            Self::Temperature => "a temperature",
            Self::TemperatureDifference => "a temperature difference",
            Self::Angle => "an angle",
            Self::MassConcentration => "a concentration by volume",
            Self::MassFraction => "a share by mass",
            Self::VolumeFraction => "a share by volume",
            Self::Share => "a percentage",
            Self::Molarity => "a molar concentration",
            Self::Molality => "a molality",
            Self::Dilution => "a dilution",
            Self::FNumber => "an f-number",
            Self::ExposureValue => "an exposure value",
            Self::Illuminance => "an illuminance",
            Self::LuminousExposure => "an exposure in lux seconds",
            Self::Stops => "a number of stops",
            Self::Speed => "a speed",
            Self::ColourTemperature => "a colour temperature",
            Self::Pressure => "a pressure",
            Self::Density => "a density",
            Self::MassPerArea => "a mass per area",
            Self::VolumePerArea => "a volume per area",
            Self::Number => "a number",
            Self::PH => "a pH",
            Self::Resolution => "a resolution",
        }
    }

    /// An amount of it as people write it, for help texts; parses as this dimension.
    pub fn example(self) -> &'static str {
        match self {
            Self::Mass => "30 g",
            Self::AmountOfSubstance => "0.1 mol",
            Self::Volume => "500 ml",
            Self::Count => "6 tablets",
            Self::Length => "125 mm",
            Self::Area => "320 cm²",
            Self::Time => "4 min 30 s",
            Self::Temperature => "20 °C",
            Self::TemperatureDifference => "2 K",
            Self::Angle => "45°",
            Self::MassConcentration => "30 g/l",
            Self::MassFraction => "5 % w/w",
            Self::VolumeFraction => "5 % v/v",
            Self::Share => "10 %",
            Self::Molarity => "0.1 mol/l",
            Self::Molality => "0.1 mol/kg",
            Self::Dilution => "1+9",
            Self::FNumber => "f/216",
            Self::ExposureValue => "EV 12.5",
            Self::Illuminance => "8000 lx",
            Self::LuminousExposure => "2 lx s",
            Self::Stops => "+1/2 stop",
            Self::Speed => "ISO 6",
            Self::ColourTemperature => "2700 K",
            Self::Pressure => "1 atm",
            Self::Density => "0.9 g/ml",
            Self::MassPerArea => "1.6 g/m²",
            Self::VolumePerArea => "30 ml/m²",
            Self::Number => "2.5",
            Self::PH => "pH 9.5",
            Self::Resolution => "600 dpi",
        }
    }

    /// Whether a number without a unit can be of it.
    pub(crate) fn takes_bare_number(self) -> bool {
        matches!(self, Self::Count | Self::Speed | Self::Number | Self::PH)
    }

    /// The least and greatest value it can have, in its canonical unit. The least f-number, speed and resolution
    /// are above zero: see [`Dimension::may_be_zero`].
    pub(crate) fn limits(self) -> (f64, f64) {
        match self {
            Self::Temperature => (-273.15, f64::MAX),
            Self::TemperatureDifference | Self::Angle | Self::ExposureValue | Self::Stops | Self::Number => {
                (f64::MIN, f64::MAX)
            }
            Self::MassFraction | Self::VolumeFraction => (0.0, 1.0),
            // Concentrated strong acids and alkalis reach about -1 and 15; beyond that it is a slip of the pen.
            Self::PH => (-2.0, 16.0),
            _ => (0.0, f64::MAX),
        }
    }

    /// Whether zero is a sensible value.
    pub(crate) fn may_be_zero(self) -> bool {
        !matches!(
            self,
            Self::FNumber | Self::Speed | Self::Resolution | Self::ColourTemperature | Self::Density
        )
    }
}
