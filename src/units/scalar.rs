//! Single values with their unit in the type, for the sciences.
//!
//! A [`Range`](crate::units::Range) says how well a value is known; a scalar is one value of it. Constructors and
//! getters are named by unit, so that no bare number with an implied unit crosses a function's boundary.

use std::ops::{Add, Div, Mul, Neg, Sub};

use super::Dimension;

/// A scalar that belongs to a [`Dimension`] and can be read from its canonical unit.
pub trait Scalar: Copy {
    /// The dimension.
    const DIMENSION: Dimension;
    /// From a number of canonical units.
    fn from_canonical(value: f64) -> Self;
    /// As a number of canonical units.
    fn canonical(self) -> f64;
}

/// Declares scalars: the canonical getter and constructor first, then further units as multiples of it.
macro_rules! scalars {
    ($(
        $(#[$doc:meta])*
        $name:ident: $dimension:ident {
            $from:ident / $get:ident $(, $other_from:ident / $other_get:ident = $factor:expr)* $(,)?
        }
    )*) => { $(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            #[doc = concat!("From a number of ", stringify!($get), ".")]
            pub const fn $from(value: f64) -> Self {
                Self(value)
            }

            #[doc = concat!("As a number of ", stringify!($get), ".")]
            pub const fn $get(self) -> f64 {
                self.0
            }

            $(
                #[doc = concat!("From a number of ", stringify!($other_get), ".")]
                pub const fn $other_from(value: f64) -> Self {
                    let (num, den): (f64, f64) = $factor;
                    Self(value * num / den)
                }

                #[doc = concat!("As a number of ", stringify!($other_get), ".")]
                pub const fn $other_get(self) -> f64 {
                    let (num, den): (f64, f64) = $factor;
                    self.0 * den / num
                }
            )*

            /// The smaller of two.
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }

            /// The larger of two.
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }

            /// Whether it is neither infinite nor undefined.
            pub fn is_finite(self) -> bool {
                self.0.is_finite()
            }
        }

        impl Scalar for $name {
            const DIMENSION: Dimension = Dimension::$dimension;
            fn from_canonical(value: f64) -> Self {
                Self(value)
            }
            fn canonical(self) -> f64 {
                self.0
            }
        }
    )* };
}

/// Arithmetic for scalars that can be added: sums, multiples, and the ratio of two as a plain number.
macro_rules! additive {
    ($($name:ident)*) => { $(
        impl $name {
            /// None of it.
            pub const ZERO: Self = Self(0.0);
        }
        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }
        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }
        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }
        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
        impl Mul<$name> for f64 {
            type Output = $name;
            fn mul(self, value: $name) -> $name {
                value * self
            }
        }
        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }
        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }
        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
                all.fold(Self::ZERO, |total, one| total + one)
            }
        }
    )* };
}

scalars! {
    /// A mass.
    Mass: Mass {
        from_grams / grams,
        from_kilograms / kilograms = (1000.0, 1.0),
        from_milligrams / milligrams = (1.0, 1000.0),
    }
    /// An amount of substance.
    AmountOfSubstance: AmountOfSubstance {
        from_moles / moles,
        from_millimoles / millimoles = (1.0, 1000.0),
    }
    /// A volume.
    Volume: Volume {
        from_litres / litres,
        from_millilitres / millilitres = (1.0, 1000.0),
    }
    /// A length.
    Length: Length {
        from_millimetres / millimetres,
        from_metres / metres = (1000.0, 1.0),
        from_centimetres / centimetres = (10.0, 1.0),
        from_micrometres / micrometres = (1.0, 1000.0),
        from_nanometres / nanometres = (1.0, 1_000_000.0),
        from_inches / inches = (25.4, 1.0),
    }
    /// An area.
    Area: Area {
        from_square_millimetres / square_millimetres,
        from_square_centimetres / square_centimetres = (100.0, 1.0),
        from_square_metres / square_metres = (1_000_000.0, 1.0),
    }
    /// A stretch of time.
    Time: Time {
        from_seconds / seconds,
        from_minutes / minutes = (60.0, 1.0),
        from_hours / hours = (3600.0, 1.0),
        from_days / days = (86_400.0, 1.0),
    }
    /// A temperature: a point on the scale, not a step along it.
    Temperature: Temperature { from_celsius / celsius }
    /// A step between two temperatures.
    TemperatureDifference: TemperatureDifference { from_kelvin / kelvin }
    /// An angle.
    Angle: Angle {
        from_degrees / degrees,
        from_radians / radians = (180.0, std::f64::consts::PI),
    }
    /// Mass of a solute in a volume of solution.
    Concentration: MassConcentration { from_grams_per_litre / grams_per_litre }
    /// Amount of a solute in a volume of solution.
    Molarity: Molarity {
        from_moles_per_litre / moles_per_litre,
        from_millimoles_per_litre / millimoles_per_litre = (1.0, 1000.0),
    }
    /// Amount of a solute in a mass of water.
    Molality: Molality {
        from_moles_per_kilogram / moles_per_kilogram,
        from_millimoles_per_kilogram / millimoles_per_kilogram = (1.0, 1000.0),
    }
    /// Focal distance over the diameter of the hole.
    FNumber: FNumber { new / number }
    /// Brightness of a scene as an exposure value at speed 100.
    ExposureValue: ExposureValue { new / value }
    /// Light that falls on a surface.
    Illuminance: Illuminance { from_lux / lux }
    /// Light that fell on a surface, summed over time.
    LuminousExposure: LuminousExposure { from_lux_seconds / lux_seconds }
    /// Doublings of exposure; negative for halvings.
    Stops: Stops { new / stops }
    /// Exposure index or ISO speed on the arithmetic scale.
    Speed: Speed { new / index }
    /// Colour of a light as the temperature of a glowing body.
    ColourTemperature: ColourTemperature { from_kelvin / kelvin }
    /// A pressure. The standard atmosphere is 101.325 kPa (NIST SP 811, 2008, appendix B.8).
    Pressure: Pressure {
        from_atmospheres / atmospheres,
        from_kilopascals / kilopascals = (1.0, 101.325),
    }
    /// Mass of a material in its own volume.
    Density: Density { from_grams_per_millilitre / grams_per_millilitre }
    /// Mass on a surface.
    MassPerArea: MassPerArea { from_grams_per_square_metre / grams_per_square_metre }
    /// Liquid on a surface.
    VolumePerArea: VolumePerArea { from_millilitres_per_square_metre / millilitres_per_square_metre }
}

additive! {
    Mass AmountOfSubstance Volume Length Area Time TemperatureDifference Angle Concentration Molarity Molality
    Illuminance LuminousExposure Stops Pressure Density MassPerArea VolumePerArea
}

impl Temperature {
    /// The ice point in kelvin, exact by definition (SI Brochure, 9th edition, section 2.3.1).
    const ICE_POINT: f64 = 273.15;

    /// From kelvin above absolute zero.
    pub const fn from_kelvin(value: f64) -> Self {
        Self(value - Self::ICE_POINT)
    }

    /// In kelvin above absolute zero.
    pub const fn kelvin(self) -> f64 {
        self.0 + Self::ICE_POINT
    }
}

impl Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Self) -> TemperatureDifference {
        TemperatureDifference(self.0 - other.0)
    }
}

impl Add<TemperatureDifference> for Temperature {
    type Output = Self;
    fn add(self, step: TemperatureDifference) -> Self {
        Self(self.0 + step.0)
    }
}

impl Sub<TemperatureDifference> for Temperature {
    type Output = Self;
    fn sub(self, step: TemperatureDifference) -> Self {
        Self(self.0 - step.0)
    }
}

impl Sub for ExposureValue {
    type Output = Stops;
    fn sub(self, other: Self) -> Stops {
        Stops(self.0 - other.0)
    }
}

impl Add<Stops> for ExposureValue {
    type Output = Self;
    fn add(self, stops: Stops) -> Self {
        Self(self.0 + stops.0)
    }
}

impl Sub<Stops> for ExposureValue {
    type Output = Self;
    fn sub(self, stops: Stops) -> Self {
        Self(self.0 - stops.0)
    }
}

impl Stops {
    /// The factor of exposure, 2 to the power of the stops.
    pub fn factor(self) -> f64 {
        libm::exp2(self.0)
    }

    /// The stops that multiply an exposure by `factor`; undefined (NaN) for a factor below zero.
    pub fn from_factor(factor: f64) -> Self {
        Self(libm::log2(factor))
    }
}

impl Mul<Time> for Illuminance {
    type Output = LuminousExposure;
    fn mul(self, time: Time) -> LuminousExposure {
        LuminousExposure(self.0 * time.0)
    }
}

impl Div<Illuminance> for LuminousExposure {
    type Output = Time;
    fn div(self, light: Illuminance) -> Time {
        Time(self.0 / light.0)
    }
}

impl Mul for Length {
    type Output = Area;
    fn mul(self, other: Self) -> Area {
        Area(self.0 * other.0)
    }
}

impl Mul<Volume> for Concentration {
    type Output = Mass;
    fn mul(self, volume: Volume) -> Mass {
        Mass(self.0 * volume.0)
    }
}

impl Div<Volume> for Mass {
    type Output = Concentration;
    fn div(self, volume: Volume) -> Concentration {
        Concentration(self.0 / volume.0)
    }
}

impl Mul<Volume> for Molarity {
    type Output = AmountOfSubstance;
    fn mul(self, volume: Volume) -> AmountOfSubstance {
        AmountOfSubstance(self.0 * volume.0)
    }
}

impl Mul<Volume> for Density {
    type Output = Mass;
    fn mul(self, volume: Volume) -> Mass {
        Mass(self.0 * volume.0 * 1000.0)
    }
}

impl Div<Density> for Mass {
    type Output = Volume;
    fn div(self, density: Density) -> Volume {
        Volume(self.0 / density.0 / 1000.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_of_one_kind_agree() {
        assert_eq!(Mass::from_kilograms(1.5).grams(), 1500.0);
        assert_eq!(Length::from_nanometres(550.0).millimetres(), 0.000_55);
        assert_eq!(Length::from_inches(5.0).millimetres(), 127.0);
        assert_eq!(Time::from_hours(1.5).minutes(), 90.0);
        assert_eq!(Temperature::from_celsius(20.0).kelvin(), 293.15);
        assert_eq!(Pressure::from_kilopascals(101.325).atmospheres(), 1.0);
        assert!((Angle::from_degrees(180.0).radians() - std::f64::consts::PI).abs() < 1e-15);
    }

    #[test]
    fn temperatures_and_their_differences_are_not_the_same() {
        let step = Temperature::from_celsius(24.0) - Temperature::from_celsius(20.0);
        assert_eq!(step, TemperatureDifference::from_kelvin(4.0));
        assert_eq!(
            Temperature::from_celsius(20.0) + step,
            Temperature::from_celsius(24.0)
        );
    }

    #[test]
    fn one_stop_doubles() {
        assert_eq!(Stops::new(1.0).factor(), 2.0);
        assert_eq!(Stops::from_factor(0.25).stops(), -2.0);
    }
}
