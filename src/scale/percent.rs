//! Percent solutions.

use crate::units::scalar::{Concentration, Mass, Volume};

/// The mass in a volume of a percent solution by weight in volume: `p/100 · V`, grams for millilitres.
///
/// The volume is the finished one: top up to it, do not add to it. Source: the definition of percent w/v.
pub fn mass_in(percent: f64, volume: Volume) -> Mass {
    Mass::from_grams(percent / 100.0 * volume.millilitres())
}

/// The percentage by weight in volume of a mass in a finished volume. Source: the definition of percent w/v.
pub fn percent_of(mass: Mass, volume: Volume) -> f64 {
    100.0 * mass.grams() / volume.millilitres()
}

/// A percentage by weight in volume as a concentration: 10 g/l for each percent. Source: the definition of percent w/v.
pub fn concentration(percent: f64) -> Concentration {
    Concentration::from_grams_per_litre(10.0 * percent)
}

/// The volume of a percent solution that holds a mass; nothing where the percentage is not above zero.
pub fn volume_for(mass: Mass, percent: f64) -> Option<Volume> {
    (percent > 0.0).then(|| Volume::from_millilitres(100.0 * mass.grams() / percent))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percent_and_mass_are_inverse() {
        let volume = Volume::from_millilitres(750.0);
        let mass = mass_in(8.0, volume);
        assert_eq!(mass.grams(), 60.0);
        assert_eq!(percent_of(mass, volume), 8.0);
        assert_eq!(concentration(8.0) * volume, mass);
        assert_eq!(volume_for(mass, 8.0), Some(volume));
        assert_eq!(volume_for(mass, 0.0), None);
    }
}
