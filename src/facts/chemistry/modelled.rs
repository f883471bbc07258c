//! What a bath holds, as the model takes it: with its ranges, at one value of each, with so much of its soda baked.

use crate::chem::{BathWithRanges, Component};
use crate::units::Range;
use crate::units::scalar::{AmountOfSubstance, Temperature};

use super::composition::{Composition, Held};

/// What the tap's water is called among what a bath's pH hangs on.
const TAP: &str = "tap water";

impl Composition {
    /// Whether every amount is one number.
    pub(super) fn is_exact(&self) -> bool {
        self.all().all(|held| held.moles.low >= held.moles.high)
    }

    /// What the tap's water brings.
    fn of_tap(&self) -> Option<Held> {
        let poured = self.kilograms - Range::exact(self.brought);
        Some(Held {
            name: TAP.to_owned(),
            component: Component::named("NaHCO3").ok()?,
            moles: self.tap.filter(|_| poured.low > 0.0)? * poured,
        })
    }

    /// All that is in the water.
    fn all(&self) -> impl Iterator<Item = Held> {
        self.held.iter().cloned().chain(self.of_tap())
    }

    /// With this share of the baking soda turned that went into the oven, from 0 to 1.
    pub(super) fn turned(&self, share: f64) -> Self {
        let mut turned = self.clone();
        turned.baked.clear();
        for &at in &self.baked {
            if let Some([raw, done]) = turned.held.get_mut(at..at.saturating_add(2)) {
                let all = raw.moles.scale(2.0);
                raw.moles = all.scale(1.0 - share);
                done.moles = all.scale(0.5 * share);
            }
        }
        turned
    }

    /// Kilograms of water with that of crystals, by which molalities are counted.
    pub(in crate::facts) fn solvent(&self) -> f64 {
        self.kilograms.best + self.crystal_kilograms()
    }

    pub(super) fn crystal_kilograms(&self) -> f64 {
        let held = self.held.iter();
        held.map(|held| held.component.crystal_water().kilograms() * held.moles.best)
            .sum()
    }

    /// As the model takes it.
    pub fn with_ranges(&self) -> BathWithRanges {
        let bath = BathWithRanges::new(Range::exact(self.celsius), self.kilograms);
        self.all()
            .fold(bath, |bath, held| bath.add(held.name, held.component, held.moles))
    }

    /// With one value of every range.
    pub fn at(&self, value: impl Fn(Range) -> f64) -> crate::chem::Bath {
        let bath = crate::chem::Bath::new(
            Temperature::from_celsius(self.celsius),
            crate::units::scalar::Mass::from_kilograms(self.kilograms.best),
        );
        self.all().fold(bath, |bath, held| {
            bath.add(&held.component, AmountOfSubstance::from_moles(value(held.moles)))
        })
    }
}
