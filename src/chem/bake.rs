//! Baking soda into washing soda, and telling an unknown soda by what it loses in the oven.

use super::component::{Component, NotKnown, WATER};
use crate::pantry::Formula;
use crate::units::scalar::{AmountOfSubstance, Mass};

/// The sodas that a white packet may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SodaForm {
    /// Anhydrous sodium carbonate.
    Anhydrous,
    /// Sodium carbonate monohydrate.
    Monohydrate,
    /// Sodium hydrogen carbonate.
    Bicarbonate,
    /// Sodium carbonate decahydrate.
    Decahydrate,
}

impl SodaForm {
    /// Every form, by rising loss.
    pub const ALL: [Self; 4] = [
        Self::Anhydrous,
        Self::Monohydrate,
        Self::Bicarbonate,
        Self::Decahydrate,
    ];

    /// Its formula.
    pub fn formula(self) -> &'static str {
        match self {
            Self::Anhydrous => "Na2CO3",
            Self::Monohydrate => "Na2CO3·H2O",
            Self::Bicarbonate => "NaHCO3",
            Self::Decahydrate => "Na2CO3·10H2O",
        }
    }

    /// The part of its mass that is lost when it is baked until it loses no more; from molar masses.
    pub fn full_loss(self) -> f64 {
        let mass = |text| Formula::parse(text).map_or(f64::NAN, |formula| formula.molar_mass());
        let left = mass("Na2CO3") * if self == Self::Bicarbonate { 0.5 } else { 1.0 };
        1.0 - left / mass(self.formula())
    }
}

/// The part of the mass that is lost when this part of baking soda has turned: `2 NaHCO3 = Na2CO3 + H2O + CO2`.
pub fn baking_loss(converted: f64) -> f64 {
    converted * SodaForm::Bicarbonate.full_loss()
}

/// What is in the tray after `grams` of baking soda have lost a part of their mass: carbonate and what did not turn.
///
/// The loss is cut at the full one.
pub fn bake(baking_soda: Mass, lost: f64) -> Result<[(Component, AmountOfSubstance); 2], NotKnown> {
    let bicarbonate = Component::named("NaHCO3")?;
    let carbonate = Component::named("Na2CO3")?;
    let moles = baking_soda.grams() / bicarbonate.molar_mass().unwrap_or(f64::NAN);
    let converted = (lost / SodaForm::Bicarbonate.full_loss()).clamp(0.0, 1.0);
    Ok([
        (carbonate, AmountOfSubstance::from_moles(0.5 * converted * moles)),
        (
            bicarbonate,
            AmountOfSubstance::from_moles((1.0 - converted) * moles),
        ),
    ])
}

/// What an unknown white soda may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SodaGuess {
    /// The form whose loss is nearest.
    pub form: SodaForm,
    /// How far the loss is from that form's, in parts of the mass.
    pub off_by: f64,
    /// Whether another form is nearly as near, so that a mixture or half-dried crystals are as likely.
    pub doubtful: bool,
    /// Molecules of water for each carbonate, if it is a carbonate that lost only water.
    pub water: Option<f64>,
}

/// Tells a soda by the part of its mass that it loses when baked until it loses no more; `None` if that is not a part.
pub fn identify_soda(lost: f64) -> Option<SodaGuess> {
    /// A kitchen scale and an oven tray err by this much of the mass. Assumed here.
    const SCALE: f64 = 0.03;
    if !(0.0..1.0).contains(&lost) {
        return None;
    }
    let mut forms = SodaForm::ALL.map(|form| ((form.full_loss() - lost).abs(), form));
    forms.sort_by(|a, b| a.0.total_cmp(&b.0));
    let [(off_by, form), ..] = forms;
    let carbonate = Formula::parse("Na2CO3").map_or(f64::NAN, |formula| formula.molar_mass());
    let water = lost * carbonate / ((1.0 - lost) * WATER);
    Some(SodaGuess {
        form,
        off_by,
        doubtful: off_by > SCALE,
        water: (form != SodaForm::Bicarbonate).then_some(water),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Molar masses by IUPAC weights: 105.988, 124.003, 84.006 and 286.141 g/mol.
    #[test]
    fn losses_follow_from_molar_masses() {
        for (form, percent) in SodaForm::ALL.into_iter().zip([0.0, 14.53, 36.92, 62.96]) {
            assert!((100.0 * form.full_loss() - percent).abs() < 0.02, "{form:?}");
            assert_eq!(identify_soda(percent / 100.0).unwrap().form, form);
        }
        assert!(identify_soda(0.25).unwrap().doubtful);
        assert_eq!(identify_soda(f64::NAN), None);
        let [(_, carbonate), (_, left)] = bake(Mass::from_grams(100.0), 0.5).unwrap();
        assert!((carbonate.moles() * 105.988 - 63.08).abs() < 0.02);
        assert_eq!(left.moles(), 0.0);
    }
}
