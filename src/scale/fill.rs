//! How much bath: for a tray, for so many sheets, for what there is of a material.

use crate::units::scalar::{Length, Volume};

/// How deep a tray is filled where nobody says: 15 mm, so that a sheet is covered while it is rocked.
/// Common practice, no source.
pub const DEPTH: Length = Length::from_millimetres(15.0);

/// The least depth that wets a sheet evenly: 12 mm. Common practice, no source.
pub const LEAST_DEPTH: Length = Length::from_millimetres(12.0);

/// What a tray with upright sides holds to a depth. Source: the volume of a cuboid; sloping sides hold more.
pub fn tray(width: Length, height: Length, depth: Length) -> Volume {
    Volume::from_millilitres(width.millimetres() * height.millimetres() * depth.millimetres() / 1000.0)
}

/// The bath for some sheets, where `capacity` sheets can go through `makes`; nothing where there is no capacity.
///
/// Source: own arithmetic.
pub fn sheets(wanted: u64, capacity: f64, makes: Volume) -> Option<Volume> {
    (capacity > 0.0 && capacity.is_finite()).then(|| makes * (wanted as f64 / capacity))
}

/// The bath that what is there of one material makes, where `needs` of it go into `makes`; nothing where none goes in.
///
/// Source: own arithmetic.
pub fn limited(there: f64, needs: f64, makes: Volume) -> Option<Volume> {
    (needs > 0.0 && there > 0.0).then(|| makes * (there / needs))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tray_for_eight_by_ten_inches_wants_seven_hundred_millilitres() {
        // 220 × 270 mm inside, 12 mm deep: 0.7128 l, worked by hand.
        let mm = Length::from_millimetres;
        assert!((tray(mm(220.0), mm(270.0), LEAST_DEPTH).litres() - 0.7128).abs() < 1e-12);
    }

    #[test]
    fn what_there_is_sets_the_volume() {
        let litre = Volume::from_litres(1.0);
        assert_eq!(limited(90.0, 36.0, litre), Some(Volume::from_litres(2.5)));
        assert_eq!(limited(90.0, 0.0, litre), None);
        assert_eq!(sheets(12, 24.0, litre), Some(Volume::from_litres(0.5)));
        assert_eq!(sheets(12, 0.0, litre), None);
    }
}
