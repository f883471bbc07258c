//! A white soda that was weighed before and after the oven: what it was, what it is now, and what that is worth in a bath.

use crate::chem::{SodaForm, SodaGuess, bake, identify_soda};
use crate::facts::bath::Bath;
use crate::facts::dose::{Known, known};
use crate::notebook::Notebook;
use crate::pantry::{Basis, Figure, Material, NOTEBOOK_SOURCE, Property, Share, Status};
use crate::units::Range;
use crate::units::scalar::Mass;

use super::dosed::Dosed;
use super::missed::{Missed, OutOfReach};
use super::solution::Solved;

/// What a baked powder is called.
const NAME: &str = "baked soda";

/// What the oven made of a soda.
#[derive(Debug, Clone)]
pub struct Baked {
    /// The part of its mass that it lost.
    pub lost: f64,
    /// What it was, if it loses no more.
    pub guess: SodaGuess,
    /// If it was baking soda, the part of it that has turned.
    pub turned: f64,
    /// If it was baking soda, the part of the baked powder's mass that is washing soda; the rest has not turned.
    pub washing: f64,
    /// The soda of the bath that it stands for, and how much of that there is.
    pub of: Option<(String, Range)>,
    /// If it was baking soda, the grams of the baked powder that keep the bath's pH, or why none do.
    pub worth: Result<(Dosed, Range), String>,
}

/// Reads the two weighings, in grams, for a bath.
pub fn baked(
    notebook: &Notebook,
    bath: &Bath,
    solved: &Solved,
    before: f64,
    after: f64,
) -> Result<Baked, String> {
    let lost = 1.0 - after / before;
    let Some(guess) = identify_soda(lost) else {
        return Err("it cannot weigh more after the oven than before: weigh again, cold and dry".to_owned());
    };
    let [(_, carbonate), (_, rest)] =
        bake(Mass::from_grams(before), lost).map_err(|error| error.to_string())?;
    let mass = |form: SodaForm| {
        crate::pantry::Formula::parse(form.formula()).map_or(f64::NAN, |formula| formula.molar_mass())
    };
    let grams = (
        carbonate.moles() * mass(SodaForm::Anhydrous),
        rest.moles() * mass(SodaForm::Bicarbonate),
    );
    let washing = grams.0 / (grams.0 + grams.1);
    let at: Vec<usize> = (0..bath.doses.len())
        .filter(|&at| {
            bath.doses
                .get(at)
                .is_some_and(|dose| dose.is(Property::Carbonate) && !dose.is(Property::Bicarbonate))
        })
        .collect();
    let litres = bath.litres().unwrap_or(Range::exact(1.0));
    let of = at.first().and_then(|&at| {
        let dose = bath.doses.get(at)?;
        Some((dose.name.value.clone(), dose.grams(litres)?))
    });
    Ok(Baked {
        lost,
        guess,
        turned: (lost / SodaForm::Bicarbonate.full_loss()).min(1.0),
        washing,
        worth: worth(notebook, bath, solved, &at, washing),
        of,
    })
}

fn worth(
    notebook: &Notebook,
    bath: &Bath,
    solved: &Solved,
    at: &[usize],
    washing: f64,
) -> Result<(Dosed, Range), String> {
    if at.is_empty() {
        return Err("the recipe holds no washing soda that it could stand for".to_owned());
    }
    let solution = solved.as_ref().map_err(Clone::clone)?;
    let powder = powder(notebook, washing).ok_or_else(|| "the pantry has no soda".to_owned())?;
    let dosed = Dosed::known_instead(bath, at, NAME, &powder)?;
    let ph = solution.ph();
    match dosed.reach(notebook, ph.best) {
        Ok(best) => {
            let range = dosed.spread(notebook, best, ph);
            Ok((dosed, range))
        }
        Err(Missed::Unsolved(why)) => Err(why),
        Err(Missed::OutOfReach(OutOfReach { nearest, .. })) => Err(format!(
            "if it was baking soda, no amount of the powder makes pH {:.1}: what has not turned keeps the bath at {nearest:.1} or below; bake on",
            ph.best
        )),
    }
}

/// The two sodas mixed, as a material.
fn powder(notebook: &Notebook, washing: f64) -> Option<Known> {
    let material = |name: &str| match known(notebook, name) {
        Known::Material { material, .. } => Some(*material),
        _ => None,
    };
    let (soda, raw) = (material("washing soda, anhydrous")?, material("baking soda")?);
    let share = |of: &Material, part: f64| {
        Some(Share {
            material: of.id.clone(),
            amount: Figure::new(part, part, part, Status::Measured, NOTEBOOK_SOURCE)?,
            basis: Basis::MassFraction,
            equivalents: false,
            extracted: None,
        })
    };
    let contains = vec![share(&soda, washing)?, share(&raw, 1.0 - washing)?];
    Some(Known::Material {
        material: Box::new(Material {
            id: "baked-soda".to_owned(),
            name: NAME.to_owned(),
            formula: None,
            purity: None,
            contains,
            solubility: Vec::new(),
            symbols: Vec::new(),
            ..soda
        }),
        strength: None,
    })
}
