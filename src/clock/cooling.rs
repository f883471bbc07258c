//! Cooling a brew: by standing, by mixing hot and cold, by ice.

use std::fmt;

use crate::units::Range;
use crate::units::scalar::{Mass, Temperature, TemperatureDifference, Time, Volume};

/// The rate of an open vessel of 250 to 1000 ml, per minute: 0.02 to 0.04. Common practice, no source.
pub const OPEN_VESSEL: Range = Range {
    low: 0.02,
    best: 0.03,
    high: 0.04,
};

/// How near to the room's temperature standing may be planned to. Source: own choice; Newton's law never gets there.
pub const NEAREST: TemperatureDifference = TemperatureDifference::from_kelvin(1.0);

/// Heat capacity of water, 4.186 J/(g K). From memory, unverified.
pub const WATER_HEAT: f64 = 4.186;

/// Heat of fusion of ice, 333.6 J/g. From memory, unverified.
pub const ICE_HEAT: f64 = 333.6;

/// Heat capacity of ice near its melting point, 2.1 J/(g K). From memory, unverified.
pub const ICE_COLD: f64 = 2.1;

/// Why a temperature cannot be reached.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoolingError {
    /// The target is within one degree of the room, or beyond it.
    TooNearTheRoom,
    /// The target does not lie between the two temperatures.
    NotBetween,
    /// The rate, or the reading that should tell it, is impossible.
    Rate,
}

impl fmt::Display for CoolingError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooNearTheRoom => write!(out, "by standing it will not come within one degree of the room"),
            Self::NotBetween => write!(out, "the target does not lie between the two temperatures"),
            Self::Rate => write!(out, "the readings do not show cooling towards the room"),
        }
    }
}

impl std::error::Error for CoolingError {}

/// A vessel that stands in a room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The temperature at the start.
    pub start: Temperature,
    /// The room's temperature.
    pub room: Temperature,
    /// The rate `k`, per minute.
    pub per_minute: f64,
}

impl Standing {
    /// The rate from one reading: `k = ln((T0 - Ta)/(T - Ta))/t`.
    ///
    /// Evaporation makes the first minutes faster, so a second reading is worth taking. Source: Newton's law of cooling.
    pub fn from_reading(
        start: Temperature,
        room: Temperature,
        after: Time,
        reading: Temperature,
    ) -> Result<Self, CoolingError> {
        let ratio = (start - room) / (reading - room);
        let per_minute = libm::log(ratio) / after.minutes();
        if per_minute.is_finite() && per_minute > 0.0 {
            Ok(Self {
                start,
                room,
                per_minute,
            })
        } else {
            Err(CoolingError::Rate)
        }
    }

    /// The temperature after some time: `Ta + (T0 - Ta) e^(-kt)`. Source: Newton's law of cooling.
    pub fn after(self, time: Time) -> Temperature {
        self.room + (self.start - self.room) * libm::exp(-self.per_minute * time.minutes())
    }

    /// The time until a temperature: `ln((T0 - Ta)/(T - Ta))/k`.
    ///
    /// Refuses a target within one degree of the room, or that lies the other way. Source: Newton's law of cooling.
    pub fn until(self, target: Temperature) -> Result<Time, CoolingError> {
        if self.per_minute.is_nan() || self.per_minute <= 0.0 {
            return Err(CoolingError::Rate);
        }
        let from = (self.start - self.room).kelvin();
        let to = (target - self.room).kelvin();
        if to.abs() < NEAREST.kelvin() || from * to <= 0.0 {
            return Err(CoolingError::TooNearTheRoom);
        }
        if to.abs() > from.abs() {
            return Err(CoolingError::NotBetween);
        }
        Ok(Time::from_minutes(libm::log(from / to) / self.per_minute))
    }
}

/// How much hot and cold water make a volume at a temperature: `hot = V (t - c)/(h - c)`.
///
/// Assumes equal heat capacity and no losses. Source: own derivation, heat is conserved.
pub fn mix(
    hot: Temperature,
    cold: Temperature,
    total: Volume,
    target: Temperature,
) -> Result<(Volume, Volume), CoolingError> {
    let share = (target - cold) / (hot - cold);
    if !(0.0..=1.0).contains(&share) {
        return Err(CoolingError::NotBetween);
    }
    let hot = total * share;
    Ok((hot, total - hot))
}

/// How much ice cools a bath: `m cw (T - t)/(Lf + ci (0 - Ti) + cw t)`.
///
/// Ice at its melting point or colder; the melted ice is part of the bath, so leave that much water out. Assumes no losses
/// and a target above the melting point. Source: own derivation, heat is conserved; see [`WATER_HEAT`], [`ICE_HEAT`],
/// [`ICE_COLD`].
pub fn ice(
    bath: Mass,
    temperature: Temperature,
    target: Temperature,
    ice: Temperature,
) -> Result<Mass, CoolingError> {
    let (from, to) = (temperature.celsius(), target.celsius());
    if !(to <= from && to > 0.0 && ice.celsius() <= 0.0) {
        return Err(CoolingError::NotBetween);
    }
    let takes = ICE_HEAT - ICE_COLD * ice.celsius() + WATER_HEAT * to;
    Ok(bath * (WATER_HEAT * (from - to) / takes))
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn c(value: f64) -> Temperature {
        Temperature::from_celsius(value)
    }

    #[test]
    fn a_reading_gives_back_its_rate() {
        let pot = Standing {
            start: c(90.0),
            room: c(19.0),
            per_minute: 0.031,
        };
        let later = pot.after(Time::from_minutes(12.0));
        let again = Standing::from_reading(pot.start, pot.room, Time::from_minutes(12.0), later).unwrap();
        assert!((again.per_minute - 0.031).abs() < 1e-12);
        assert!((again.until(later).unwrap().minutes() - 12.0).abs() < 1e-9);
    }

    #[test]
    fn the_room_is_never_reached() {
        let pot = Standing {
            start: c(90.0),
            room: c(20.0),
            per_minute: 0.03,
        };
        assert_eq!(pot.until(c(20.5)), Err(CoolingError::TooNearTheRoom));
        assert_eq!(pot.until(c(15.0)), Err(CoolingError::TooNearTheRoom));
        assert_eq!(pot.until(c(95.0)), Err(CoolingError::NotBetween));
        assert_eq!(
            Standing::from_reading(c(90.0), c(20.0), Time::from_minutes(5.0), c(92.0)),
            Err(CoolingError::Rate)
        );
    }

    #[test]
    fn heat_is_conserved() {
        let (hot, cold) = mix(c(80.0), c(12.0), Volume::from_litres(2.0), c(24.0)).unwrap();
        let heat = hot.litres() * 80.0 + cold.litres() * 12.0;
        assert!((heat / 2.0 - 24.0).abs() < 1e-12);
        assert_eq!(
            mix(c(80.0), c(12.0), Volume::from_litres(2.0), c(10.0)),
            Err(CoolingError::NotBetween)
        );
        let m = ice(Mass::from_grams(500.0), c(28.0), c(20.0), c(-10.0))
            .unwrap()
            .grams();
        let given = 500.0 * WATER_HEAT * 8.0;
        assert!((given - m * (ICE_HEAT + 21.0 + WATER_HEAT * 20.0)).abs() < 1e-9);
    }
}
