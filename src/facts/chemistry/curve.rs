//! Curves of pH: against more or less of the soda or acid of a bath, and of a stop against the sheets that went through.

use crate::chem::{carried_in, ph_with_carry_over, sheets_until};
use crate::facts::bath::Bath;
use crate::facts::dose::Dose;
use crate::notebook::{Notebook, Role};
use crate::pantry::Property;
use crate::units::scalar::Volume;
use crate::units::{Dimension, Range};

use super::capacity::STOP_SPENT;
use super::dosed::Dosed;
use super::solution::{Chemistry, Solution};

/// In how many steps an amount goes to twice what is written, or a count to its end.
const STEPS: u32 = 24;
/// At how many of them the whole band is computed; between them its width is drawn straight.
const BANDS: u32 = 6;

/// A curve of pH with its band.
#[derive(Debug, Clone)]
pub struct Curve {
    /// What was changed.
    pub along: Along,
    /// How much of it, and the pH there.
    pub points: Vec<(f64, Range)>,
    /// Where the recipe is, or where the stop is spent.
    pub here: (f64, Range),
}

/// What is changed along a curve.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Along {
    /// Grams of a material.
    Grams(String),
    /// Millilitres of a material.
    Millilitres(String),
    /// Sheets that went through.
    Sheets,
}

/// pH against the soda of a developer, from nothing to twice what the recipe has, or against the acid of a stop, from a
/// quarter of it; none where the bath has neither, or cannot be computed.
pub fn ph_curve(notebook: &Notebook, bath: &Bath, chemistry: &Chemistry) -> Option<Curve> {
    let dose = moved(bath)?;
    let solution = chemistry.solution(&bath.id).ok()?;
    if solution.is_unbuffered() {
        return None;
    }
    let name = &dose.name.value;
    let dosed = Dosed::with(notebook, bath, name).ok()?;
    let written = dosed.written().filter(|written| written.best > 0.0)?;
    // Without any soda a developer shows its cliff; a stop without acid is water, of which there is nothing to see.
    let least = if bath.role() == Some(Role::Stop) {
        0.25
    } else {
        0.0
    };
    let at = |step: u32| written.best * (least + (2.0 - least) * f64::from(step) / f64::from(STEPS));
    let widths: Vec<(f64, f64, f64)> = (0..=BANDS)
        .filter_map(|step| {
            let total = at(step * STEPS / BANDS);
            let ph = dosed.solution(notebook, Range::exact(total)).ok()?.ph();
            Some((total, ph.best - ph.low, ph.high - ph.best))
        })
        .collect();
    let points: Vec<(f64, Range)> = (0..=STEPS)
        .filter_map(|step| {
            let total = at(step);
            let best = dosed.ph(notebook, total).ok()?;
            let (below, above) = between(&widths, total)?;
            Some((total, Range::new(best - below, best, best + above)))
        })
        .collect();
    let (along, factor) = match dosed.counted() {
        Dimension::Volume => (Along::Millilitres(name.clone()), 1000.0),
        _ => (Along::Grams(name.clone()), 1.0),
    };
    (points.len() > 2).then(|| Curve {
        along,
        points: points
            .into_iter()
            .map(|(total, ph)| (total * factor, ph))
            .collect(),
        here: (written.best * factor, solution.ph()),
    })
}

/// The dose whose amount decides: the alkali of a developer, the acid of a stop.
fn moved(bath: &Bath) -> Option<&Dose> {
    let decides = match bath.role()? {
        Role::Developer => |dose: &Dose| {
            dose.is(Property::Carbonate) || dose.is(Property::Bicarbonate) || dose.is(Property::Alkali)
        },
        Role::Stop => |dose: &Dose| dose.is(Property::Acid) && !dose.is(Property::Ascorbate),
        _ => return None,
    };
    let mut found = bath.doses.iter().filter(|dose| decides(dose));
    // Of two sodas the first is the stronger, or nobody can say which is meant.
    found.next()
}

/// The width of a band between the places where it is known.
fn between(widths: &[(f64, f64, f64)], total: f64) -> Option<(f64, f64)> {
    let pair = widths
        .windows(2)
        .find(|pair| matches!(pair, [low, high] if low.0 <= total && total <= high.0));
    let Some([low, high]) = pair else {
        let nearest = widths
            .iter()
            .min_by(|one, other| (one.0 - total).abs().total_cmp(&(other.0 - total).abs()))?;
        return Some((nearest.1, nearest.2));
    };
    let part = (total - low.0) / (high.0 - low.0);
    Some((low.1 + part * (high.1 - low.1), low.2 + part * (high.2 - low.2)))
}

/// The pH of a stop as sheets go through, with what a sheet carries at least and at most; it ends where the stop is spent.
pub fn stop_curve(bath: &Bath, chemistry: &Chemistry) -> Option<Curve> {
    let place = chemistry
        .lines
        .place(&bath.id)
        .filter(|_| bath.role() == Some(Role::Stop))?;
    let (_, sheet) = chemistry.lines.sheet(place.base)?;
    let own = chemistry.solution(&bath.id).ok()?;
    let developer = place.developer.as_deref()?;
    let other = chemistry.solution(developer).ok()?;
    let limit = chemistry.carry_limit(bath, own, developer, other).ok()?;
    let volume = Volume::from_litres(bath.working_litres()?.best);
    let carries = sheet.carries?;
    let until =
        |millilitres: f64| sheets_until(limit, volume, Volume::from_millilitres(millilitres)).map(f64::from);
    let spent = until(carries.best)?;
    // A third beyond its end shows how it goes on.
    let last = (spent * 1.35).max(1.0);
    let numbers: Vec<f64> = (0..=STEPS)
        .map(|step| last * f64::from(step) / f64::from(STEPS))
        .collect();
    let best = |solution: &Solution| solution.composition.with_ranges().best();
    let (stop, developer) = (best(own), best(other));
    let curve = |millilitres: f64| {
        let each = Volume::from_millilitres(millilitres);
        let ratios: Vec<f64> = numbers
            .iter()
            .map(|&count| carried_in(count, volume, each))
            .collect::<Option<_>>()?;
        ph_with_carry_over(&stop, &developer, &ratios, own.composition.gas).ok()
    };
    let (least, middle, most) = (curve(carries.low)?, curve(carries.best)?, curve(carries.high)?);
    let points: Vec<(f64, Range)> = numbers
        .into_iter()
        .zip(least.into_iter().zip(middle).zip(most))
        .map(|(count, ((low, best), high))| (count, Range::new(low, best, high)))
        .collect();
    Some(Curve {
        along: Along::Sheets,
        points,
        here: (spent, Range::exact(STOP_SPENT)),
    })
}
