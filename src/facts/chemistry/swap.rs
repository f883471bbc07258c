//! What one material is worth in another: the same salt by its moles, what reduces silver by its electrons, an acid or an
//! alkali by the pH that it makes.

use std::sync::Arc;

use crate::chem::{SodaForm, acid_equivalents, electrons};
use crate::facts::bath::Bath;
use crate::facts::dose::Known;
use crate::notebook::Notebook;
use crate::pantry::{Formula, Property, Strength};
use crate::units::{Dimension, Range};

use super::dosed::{Dosed, places};
use super::missed::{Missed, OutOfReach};
use super::solution::{Solution, Solved, compose};

/// Electrons in mol below which a material counts as none that reduces silver.
const NO_ELECTRONS: f64 = 1e-9;
/// A change of pH below which a material counts as neither acid nor alkali.
const IDLE: f64 = 0.02;

/// What stays the same in a swap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kept {
    /// Moles of the same salt.
    Salt,
    /// Electrons for silver.
    Electrons,
    /// The pH.
    Ph(f64),
    /// Moles of acid, where no amount of the other acid makes the pH.
    Acid,
}

/// One material in the place of another.
#[derive(Debug, Clone)]
pub struct Swapped {
    /// The bath, with the amount of the new material open.
    pub dosed: Dosed,
    /// What stays the same.
    pub kept: Kept,
    /// How much there was of the old one: in grams or litres.
    pub written: Range,
    /// In which of the two that is.
    pub written_in: Dimension,
    /// How much of the new one is worth it.
    pub total: Range,
    /// Of an acid in the place of another, how much holds as many moles of acid.
    pub as_much_acid: Option<Range>,
}

/// Why nothing of a material is worth the other.
#[derive(Debug, Clone)]
pub struct NotSwapped {
    /// In words.
    pub why: String,
    /// What the same weight of it would come to.
    pub same_weight: Option<Arc<Solution>>,
    /// Of baking soda in the place of washing soda: the grams that, baked through, are as much washing soda, and what
    /// they then weigh.
    pub bake: Option<(Range, Range)>,
}

impl From<String> for NotSwapped {
    fn from(why: String) -> Self {
        Self {
            why,
            same_weight: None,
            bake: None,
        }
    }
}

/// What `to` is worth in the place of a bath's `from`.
pub fn swap(
    notebook: &Notebook,
    bath: &Bath,
    solved: &Solved,
    from: &str,
    to: &str,
) -> Result<Swapped, NotSwapped> {
    // Checks first that both names mean something.
    let at = places(notebook, bath, from)?;
    let dosed = Dosed::instead(notebook, bath, from, to)?;
    let held = Dosed::with(notebook, bath, from)?;
    let (Some(old), Some(new), Some(written)) = (held.known(), dosed.known(), held.written()) else {
        return Err(format!("how much of `{from}` is in it cannot be told").into());
    };
    let mut swapped = Swapped {
        kept: Kept::Salt,
        written,
        written_in: held.counted(),
        total: Range::ZERO,
        as_much_acid: None,
        dosed: dosed.clone(),
    };
    if let (Some(own), Some(other)) = (pure(old), pure(new))
        && own.anhydrous() == other.anhydrous()
        && held.counted() == dosed.counted()
    {
        swapped.total = written.scale(other.molar_mass() / own.molar_mass());
        return Ok(swapped);
    }
    let is = |property: Property| {
        at.iter()
            .any(|&at| bath.doses.get(at).is_some_and(|dose| dose.is(property)))
    };
    let gives = |dosed: &Dosed, total: Range| electrons_of(notebook, &dosed.bath(total));
    let rest = gives(&dosed, Range::ZERO)?;
    let had = less(gives(&held, written)?, rest);
    if had.best > NO_ELECTRONS && !is(Property::Sulfite) && !is(Property::Thiosulfate) {
        let one = unit(&dosed);
        let each = less(gives(&dosed, Range::exact(one))?, rest);
        if each.best <= NO_ELECTRONS {
            return Err(
                format!("`{to}` gives silver nothing: no amount of it does the work of `{from}`").into(),
            );
        }
        swapped.kept = Kept::Electrons;
        let many = had
            .checked_div(each)
            .ok_or_else(|| format!("`{to}` may give silver nothing at all"))?;
        swapped.total = many.scale(one);
        return Ok(swapped);
    }
    let solution = solved.as_ref().map_err(Clone::clone)?;
    if solution.is_unbuffered() {
        return Err(
            "nothing in the bath holds a pH, so nothing tells what would be worth the same"
                .to_owned()
                .into(),
        );
    }
    let without = held.ph(notebook, 0.0)?;
    let other_work = [Property::Sulfite, Property::Thiosulfate, Property::Restrainer];
    if other_work.into_iter().any(is) || (without - solution.band.best).abs() < IDLE {
        return Err(format!(
            "`{from}` is not in the bath as an acid, an alkali or for what it gives to silver: nothing computed here tells what would be worth it"
        )
        .into());
    }
    by_ph(notebook, solution, swapped, (&held, old, from), to)
}

fn by_ph(
    notebook: &Notebook,
    solution: &Solution,
    mut swapped: Swapped,
    (held, old, from): (&Dosed, &Known, &str),
    to: &str,
) -> Result<Swapped, NotSwapped> {
    let ph = solution.ph();
    swapped.kept = Kept::Ph(ph.best);
    let best = match swapped.dosed.reach(notebook, ph.best) {
        Ok(best) => best,
        Err(Missed::Unsolved(why)) => return Err(why.into()),
        Err(Missed::OutOfReach(OutOfReach { nearest, .. })) => {
            if let Some(acid) = as_much_acid(notebook, &swapped, held) {
                swapped.kept = Kept::Acid;
                swapped.total = acid;
                return Ok(swapped);
            }
            return Err(NotSwapped {
                why: format!(
                    "no amount of `{to}` is worth `{from}`: the bath is at pH {:.1}, and with `{to}` comes no nearer than {nearest:.1}",
                    ph.best
                ),
                same_weight: (swapped.written_in == swapped.dosed.counted())
                    .then(|| swapped.dosed.solution(notebook, swapped.written).ok())
                    .flatten(),
                bake: bake(&swapped, old),
            });
        }
    };
    swapped.total = swapped.dosed.spread(notebook, best, ph);
    swapped.as_much_acid = as_much_acid(notebook, &swapped, held);
    Ok(swapped)
}

/// How much of the new acid holds as many moles of acid as there were of the old one.
fn as_much_acid(notebook: &Notebook, swapped: &Swapped, held: &Dosed) -> Option<Range> {
    let acid = |bath: &Bath| {
        let composition = compose(notebook, bath).ok()?;
        let each = composition.held.iter();
        Some(each.fold(Range::ZERO, |sum, held| {
            sum + held.moles.scale(acid_equivalents(&held.component))
        }))
    };
    let one = unit(&swapped.dosed);
    let rest = acid(&swapped.dosed.bath(Range::ZERO))?;
    let each = less(acid(&swapped.dosed.bath(Range::exact(one)))?, rest);
    let had = less(acid(&held.bath(swapped.written))?, acid(&held.bath(Range::ZERO))?);
    // Two alkalis, or an acid and an alkali, are no case of this.
    (had.best > 1e-6 && each.best > 1e-6)
        .then(|| had.checked_div(each))
        .flatten()
        .map(|many| many.scale(one))
}

/// Of baking soda in the place of washing soda, what would be baked, and what it weighs then: all of the carbonate.
fn bake(swapped: &Swapped, old: &Known) -> Option<(Range, Range)> {
    let sodas = [SodaForm::Bicarbonate, SodaForm::Anhydrous].map(|form| Formula::parse(form.formula()).ok());
    let [Some(baking), Some(washing)] = sodas else {
        return None;
    };
    let (own, other) = (pure(old)?, pure(swapped.dosed.known()?)?);
    if own.anhydrous() != washing.anhydrous()
        || other.elements() != baking.elements()
        || swapped.written_in != Dimension::Mass
    {
        return None;
    }
    let baked = swapped.written.scale(washing.molar_mass() / own.molar_mass());
    Some((
        baked.scale(1.0 / (1.0 - SodaForm::Bicarbonate.full_loss())),
        baked,
    ))
}

fn electrons_of(notebook: &Notebook, bath: &Bath) -> Result<Range, String> {
    let composition = compose(notebook, bath)?;
    let of = |value: fn(Range) -> f64| electrons(&composition.at(value)).moles();
    Ok(Range::new(
        of(|range| range.low),
        of(|range| range.best),
        of(|range| range.high),
    ))
}

/// What one of two has over the other, where both share the rest.
fn less(one: Range, rest: Range) -> Range {
    Range::new(one.low - rest.low, one.best - rest.best, one.high - rest.high)
}

/// A gram, or ten millilitres.
fn unit(dosed: &Dosed) -> f64 {
    if dosed.counted() == Dimension::Volume {
        0.01
    } else {
        1.0
    }
}

/// The formula of what is taken pure.
fn pure(known: &Known) -> Option<&Formula> {
    match known {
        Known::Material { material, strength }
            if strength.is_none_or(|strength| strength == Strength::PURE) =>
        {
            material.formula.as_ref()
        }
        Known::Formula(formula) => Some(formula),
        _ => None,
    }
}
