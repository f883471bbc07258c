//! Where the sun stands.

use std::fmt;

use jiff::{Timestamp, tz::TimeZone};
use solar_positioning::time::JulianDate;
use solar_positioning::{Location, SolarPositions, delta_t};

use crate::units::scalar::{Angle, Pressure, Temperature};

/// A place on Earth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// North positive, -90° to 90°.
    pub latitude: Angle,
    /// East positive, -180° to 180°.
    pub longitude: Angle,
}

/// Where the sun's centre stands, seen from a place at sea level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunPosition {
    /// Above the horizon, without refraction; negative below.
    pub altitude: Angle,
    /// From north, clockwise, 0° to 360°.
    pub azimuth: Angle,
}

/// Why a position cannot be computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SunError {
    /// The latitude is not within ±90° or the longitude not within ±180°.
    Place,
    /// The instant lies outside the years of the algorithm.
    Instant,
}

impl fmt::Display for SunError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Place => write!(out, "a latitude lies within ±90° and a longitude within ±180°"),
            Self::Instant => write!(out, "the sun's place is known for the years -500 to 3000"),
        }
    }
}

impl std::error::Error for SunError {}

/// The sun's position at an instant.
///
/// Valid for the years -500 to 3000; within 0.001° for a place at sea level. Source: Reda and Andreas 2004, Solar
/// position algorithm for solar radiation applications, Solar Energy 76(5), 577.
pub fn position(place: Place, instant: Timestamp) -> Result<SunPosition, SunError> {
    let (latitude, longitude) = (place.latitude.degrees(), place.longitude.degrees());
    if !(latitude.abs() <= 90.0 && longitude.abs() <= 180.0) {
        return Err(SunError::Place);
    }
    let location = Location { latitude, longitude };
    let time = julian(instant)?;
    let position = SolarPositions::new()
        .at_from_julian(time, location, 0.0, None)
        .map_err(|_| SunError::Instant)?;
    Ok(SunPosition {
        altitude: Angle::from_degrees(position.elevation_angle()),
        azimuth: Angle::from_degrees(position.azimuth()),
    })
}

fn julian(instant: Timestamp) -> Result<JulianDate, SunError> {
    const UNIX_EPOCH: f64 = 2_440_587.5;
    let seconds = instant.as_second() as f64 + f64::from(instant.subsec_nanosecond()) * 1e-9;
    let date = TimeZone::UTC.to_datetime(instant).date();
    let month = u32::try_from(date.month()).map_err(|_| SunError::Instant)?;
    let delta = delta_t::estimate_from_date(i32::from(date.year()), month).map_err(|_| SunError::Instant)?;
    JulianDate::new(UNIX_EPOCH + seconds / 86_400.0, delta).map_err(|_| SunError::Instant)
}

/// The lowest altitude of the sun's centre at which refraction still shows: its upper limb on the horizon.
///
/// Source: Reda and Andreas 2004 (see [`position`]): the sun's radius 0.26667° and the refraction 0.5667°.
const LOWEST: f64 = -(0.266_67 + 0.566_7);

/// The altitude at which the sun is seen: the true one lifted by refraction.
///
/// `R = P/101 kPa · 283/(273 + T) · 1.02/(60 tan(h + 10.3/(h + 5.11)))` in degrees. No refraction is added where the sun
/// is wholly below the horizon. Source: Reda and Andreas 2004 (see [`position`]), after Sæmundsson.
pub fn apparent_altitude(altitude: Angle, pressure: Pressure, temperature: Temperature) -> Angle {
    let h = altitude.degrees();
    if h < LOWEST {
        return altitude;
    }
    let inner = Angle::from_degrees(h + 10.3 / (h + 5.11));
    let air = pressure.kilopascals() / 101.0 * (283.0 / (273.0 + temperature.celsius()));
    let lift = air * 1.02 / (60.0 * libm::tan(inner.radians()));
    altitude + Angle::from_degrees(lift)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(latitude: f64, longitude: f64, instant: &str) -> SunPosition {
        let place = Place {
            latitude: Angle::from_degrees(latitude),
            longitude: Angle::from_degrees(longitude),
        };
        position(place, instant.parse().unwrap()).unwrap()
    }

    #[test]
    fn at_the_poles_the_altitude_is_the_declination() {
        // The obliquity of the ecliptic is 23.44° (IAU 2006 precession).
        let north = at(90.0, 0.0, "2026-06-21T08:25:00Z").altitude.degrees();
        let south = at(-90.0, 0.0, "2026-06-21T08:25:00Z").altitude.degrees();
        assert!((north - 23.44).abs() < 0.01, "{north}");
        assert!((south + 23.44).abs() < 0.01, "{south}");
        for longitude in [-180.0, -75.0, 120.0] {
            let here = at(90.0, longitude, "2026-06-21T08:25:00Z").altitude.degrees();
            assert!((here - north).abs() < 1e-6);
        }
    }

    #[test]
    fn in_the_south_the_noon_sun_stands_in_the_north() {
        let sun = at(-33.9249, 18.4241, "2026-06-21T10:48:00Z");
        let off = sun.azimuth.degrees().min(360.0 - sun.azimuth.degrees());
        assert!(off < 1.0, "{sun:?}");
        assert!((sun.altitude.degrees() - (90.0 - 33.9249 - 23.44)).abs() < 0.05);
    }

    #[test]
    fn the_date_line_is_one_line() {
        let east = at(-17.0, 180.0, "2026-01-05T23:10:00Z");
        let west = at(-17.0, -180.0, "2026-01-05T23:10:00Z");
        assert!((east.altitude - west.altitude).degrees().abs() < 1e-9);
        assert!((east.azimuth - west.azimuth).degrees().abs() < 1e-9);
    }

    #[test]
    fn impossible_places_are_refused() {
        let place = Place {
            latitude: Angle::from_degrees(91.0),
            longitude: Angle::from_degrees(0.0),
        };
        let instant: Timestamp = "2026-01-05T23:10:00Z".parse().unwrap();
        assert_eq!(position(place, instant), Err(SunError::Place));
    }

    #[test]
    fn refraction_lifts_the_setting_sun_by_about_its_width() {
        let seen = apparent_altitude(
            Angle::from_degrees(0.0),
            Pressure::from_kilopascals(101.325),
            Temperature::from_celsius(10.0),
        );
        assert!((0.4..0.6).contains(&seen.degrees()));
        let night = Angle::from_degrees(-10.0);
        let air = (
            Pressure::from_kilopascals(101.325),
            Temperature::from_celsius(10.0),
        );
        assert_eq!(apparent_altitude(night, air.0, air.1), night);
    }
}
