//! How often a class fills its trays: sheets come in loads, and a bath that dies has to be poured away in between.

use super::shopping::whole_up;
use crate::units::scalar::Time;

/// Lifting, draining and laying in, for each load: half a minute. Common practice, no source.
pub const HANDLING: Time = Time::from_seconds(30.0);

/// Sheets going through one kind of tray.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turns {
    /// Sheets in all.
    pub sheets: u64,
    /// Sheets that lie in a tray at once, at least 1.
    pub per_load: u32,
    /// Trays of this bath side by side, at least 1.
    pub trays: u32,
    /// What one load takes, handling included.
    pub each: Time,
}

impl Turns {
    /// Loads in all, rounded up.
    pub fn loads(self) -> u64 {
        self.sheets.div_ceil(u64::from(self.per_load.max(1)))
    }

    /// Time that all loads take together, one after another.
    pub fn tray_time(self) -> Time {
        self.each * self.loads() as f64
    }

    /// Time that the fullest tray is in use, loads shared out evenly.
    pub fn per_tray(self) -> Time {
        self.each * self.loads().div_ceil(u64::from(self.trays.max(1))) as f64
    }
}

/// Fills of one tray that has to be ready for some time, each good for a working life; nothing where it has none.
///
/// Source: own arithmetic.
pub fn fills(in_use: Time, life: Time) -> Option<u64> {
    (life > Time::ZERO).then(|| whole_up(in_use / life).max(1))
}

/// Fills that the sheets want for the bath not to be spent; nothing where a fill takes no sheet. Source: own arithmetic.
pub fn fills_by_capacity(sheets: u64, per_fill: f64) -> Option<u64> {
    (per_fill > 0.0).then(|| whole_up(sheets as f64 / per_fill).max(1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forty_eight_sheets_in_pairs() {
        // Worked by hand: 24 loads of four and a half minutes are 108 minutes, 54 in each of two trays.
        let turns = Turns {
            sheets: 48,
            per_load: 2,
            trays: 2,
            each: Time::from_minutes(4.0) + HANDLING,
        };
        assert_eq!(turns.loads(), 24);
        assert!((turns.tray_time().minutes() - 108.0).abs() < 1e-9);
        assert!((turns.per_tray().minutes() - 54.0).abs() < 1e-9);
        let hour = Time::from_minutes(60.0);
        assert_eq!(fills(turns.per_tray(), hour), Some(1));
        assert_eq!(fills(turns.tray_time(), hour), Some(2));
        assert_eq!(fills(turns.tray_time(), Time::ZERO), None);
        assert_eq!(fills_by_capacity(48, 19.2), Some(3));
    }
}
