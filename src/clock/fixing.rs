//! How long to fix, and when a fixer is spent.

use crate::units::scalar::{Area, Time, Volume};

/// How many times the clearing time a print must stay: twice. Source: common darkroom references; three times is advised by
/// some.
pub const CLEARINGS: f64 = 2.0;

/// The shortest fixing time: twice the clearing time now. Common practice, no source.
pub fn shortest(clearing: Time) -> Time {
    clearing * CLEARINGS
}

/// Whether a fixer is spent: it clears in twice its fresh time or more. Common practice, no source.
pub fn is_spent(fresh: Time, now: Time) -> bool {
    now >= fresh * 2.0
}

/// The area that some bath can take: sheets per litre of a reference size, scaled by area.
///
/// Source: own arithmetic; silver goes with area.
pub fn capacity(volume: Volume, sheets_per_litre: f64, reference: Area) -> Area {
    reference * (sheets_per_litre * volume.litres())
}

/// How many sheets of a size an area is.
pub fn sheets(area: Area, sheet: Area) -> f64 {
    area / sheet
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_the_sheet_twice_the_sheets() {
        let big = Area::from_square_millimetres(51_562.0);
        let all = capacity(Volume::from_litres(0.5), 50.0, big);
        assert!((sheets(all, big) - 25.0).abs() < 1e-9);
        assert!((sheets(all, big / 2.0) - 50.0).abs() < 1e-9);
    }

    #[test]
    fn twice_the_clearing_time_is_the_end() {
        let s = Time::from_seconds;
        assert!(is_spent(s(40.0), s(80.0)) && !is_spent(s(40.0), s(79.0)));
        assert_eq!(shortest(s(95.0)), s(190.0));
    }
}
