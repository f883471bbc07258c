//! A bath with more or less of one material, or with another in its place: what would be, and how much makes a pH.

use crate::chem::solve;
use crate::facts::bath::Bath;
use crate::facts::dose::{Dose, Known, known};
use crate::facts::shelf::counted_in;
use crate::notebook::{Figure, Notebook, nearest};
use crate::pantry::Lookup;
use crate::source::Spanned;
use crate::units::{Dimension, Range, Style, parse};

use super::missed::{Ceiling, Missed, OutOfReach, ceiling};
use super::solution::{Solution, compose, solve_bath};

/// From one amount that is tried to the next.
const STRIDE: f64 = 1.4;

/// A bath of which the amount of one material is open.
#[derive(Debug, Clone)]
pub struct Dosed {
    bath: Bath,
    /// The doses that it is, and the share of each in the total.
    at: Vec<(usize, f64)>,
    /// Mass in grams, or volume in litres.
    counted: Dimension,
    /// How much of it there is as written; nothing where it is not in the recipe.
    written: Option<Range>,
}

impl Dosed {
    /// A bath's own material, or one that it does not hold yet.
    pub fn with(notebook: &Notebook, bath: &Bath, material: &str) -> Result<Self, String> {
        let at = held(notebook, bath, material);
        let mut bath = bath.clone();
        if let Some(first) = at.first().and_then(|&first| bath.doses.get(first)) {
            let counted = counted(&first.known);
            return Self::at(bath, &at, counted);
        }
        let asked = known_exactly(notebook, material)?;
        let Some(beside) = bath.doses.first() else {
            return Err("nothing is in it but water".to_owned());
        };
        let counted = counted(&asked);
        let dose = Dose {
            part: None,
            name: Spanned::new(material.to_owned(), beside.name.span),
            amount: figure(counted, beside)?,
            known: asked,
        };
        bath.doses.push(dose);
        let last = bath.doses.len() - 1;
        Ok(Self {
            bath,
            at: vec![(last, 1.0)],
            counted,
            written: None,
        })
    }

    /// Another material in the place of one that the bath holds.
    pub fn instead(notebook: &Notebook, bath: &Bath, from: &str, to: &str) -> Result<Self, String> {
        let at = places(notebook, bath, from)?;
        Self::known_instead(bath, &at, to, &known_exactly(notebook, to)?)
    }

    /// A material that no pantry holds in the place of some doses.
    pub(super) fn known_instead(
        bath: &Bath,
        at: &[usize],
        name: &str,
        asked: &Known,
    ) -> Result<Self, String> {
        let mut own = Self::at(bath.clone(), at, Dimension::Mass)?;
        own.counted = counted(asked);
        own.written = None;
        for &(at, _) in &own.at {
            if let Some(dose) = own.bath.doses.get_mut(at) {
                dose.amount = figure(own.counted, dose)?;
                name.clone_into(&mut dose.name.value);
                dose.known.clone_from(asked);
            }
        }
        Ok(own)
    }

    fn at(bath: Bath, at: &[usize], counted: Dimension) -> Result<Self, String> {
        let litres = bath.litres().unwrap_or(Range::exact(1.0));
        let amounts: Vec<(usize, Range)> = at
            .iter()
            .map(|&at| {
                let dose = bath.doses.get(at);
                let amount = dose.and_then(|dose| amount_of(dose, counted, litres));
                amount.map(|amount| (at, amount)).ok_or_else(|| {
                    let name = dose.map_or("", |dose| dose.name.value.as_str());
                    format!("how much of `{name}` is in it cannot be told")
                })
            })
            .collect::<Result<_, _>>()?;
        let total = amounts.iter().fold(Range::ZERO, |sum, (_, amount)| sum + *amount);
        let count = amounts.len() as f64;
        let share = |amount: Range| {
            if total.best > 0.0 {
                amount.best / total.best
            } else {
                1.0 / count
            }
        };
        Ok(Self {
            at: amounts.iter().map(|&(at, amount)| (at, share(amount))).collect(),
            bath,
            counted,
            written: Some(total),
        })
    }

    /// Mass, told in grams, or volume, told in litres.
    pub fn counted(&self) -> Dimension {
        self.counted
    }

    /// How much of it the recipe has; none where it is not in it.
    pub fn written(&self) -> Option<Range> {
        self.written
    }

    /// The material.
    pub fn known(&self) -> Option<&Known> {
        Some(&self.dose(&self.bath)?.known)
    }

    /// The first dose of it in a bath that was made from this one.
    pub fn dose<'b>(&self, bath: &'b Bath) -> Option<&'b Dose> {
        let (at, _) = self.at.first()?;
        bath.doses.get(*at)
    }

    /// The bath with so much of it in all.
    pub fn bath(&self, total: Range) -> Bath {
        let mut bath = self.bath.clone();
        for &(at, share) in &self.at {
            let Some(dose) = bath.doses.get_mut(at) else {
                continue;
            };
            if let Ok(mut amount) = figure(self.counted, dose) {
                let amount_here = total.scale(share);
                amount.amount.written.decimals =
                    decimals(amount.amount.unit.range_from_canonical(amount_here).best);
                amount.amount.range = amount_here;
                dose.amount = amount;
            }
        }
        bath
    }

    /// The pH with so much of it in all.
    pub fn ph(&self, notebook: &Notebook, total: f64) -> Result<f64, String> {
        let composition = compose(notebook, &self.bath(Range::exact(total)))?;
        solve(&composition.with_ranges().best(), composition.gas)
            .map(|solved| solved.ph())
            .map_err(|error| error.to_string())
    }

    /// The whole solution with so much of it in all.
    pub fn solution(&self, notebook: &Notebook, total: Range) -> Result<std::sync::Arc<Solution>, String> {
        solve_bath(notebook, &self.bath(total))
    }

    /// The total at which the bath has a pH: of several the one nearest to what is written.
    pub fn reach(&self, notebook: &Notebook, ph: f64) -> Result<f64, Missed> {
        let litres = self.bath.litres().map_or(1.0, |litres| litres.best);
        let least = match self.counted {
            Dimension::Volume => 1e-4 * litres,
            _ => 0.02 * litres,
        };
        let Ceiling { total: most, limit } = ceiling(&self.bath, self.known(), self.counted);
        let here = self.written.map_or(0.0, |written| written.best);
        let mut totals = vec![0.0, here];
        let mut total = least;
        while total < most {
            totals.push(total);
            total *= STRIDE;
        }
        totals.push(most);
        totals.sort_by(f64::total_cmp);
        totals.dedup();
        let mut why = None;
        let tried: Vec<(f64, f64)> = totals
            .into_iter()
            .filter_map(|total| match self.ph(notebook, total) {
                Ok(ph) => Some((total, ph)),
                Err(error) => {
                    why.get_or_insert(error);
                    None
                }
            })
            .collect();
        let crosses = |pair: &[(f64, f64)]| match *pair {
            [(_, one), (_, other)] => (one - ph) * (other - ph) <= 0.0,
            _ => false,
        };
        let away = |pair: &&[(f64, f64)]| match **pair {
            [(low, _), (high, _)] => (low - here).max(here - high).max(0.0),
            _ => f64::INFINITY,
        };
        let found = tried
            .windows(2)
            .filter(|pair| crosses(pair))
            .min_by(|one, other| away(one).total_cmp(&away(other)));
        let Some(&[low, high]) = found else {
            return Err(match OutOfReach::of(&tried, ph, Ceiling { total: most, limit }) {
                Some(out) => Missed::OutOfReach(out),
                None => Missed::Unsolved(why.unwrap_or_else(|| "nothing could be tried".to_owned())),
            });
        };
        self.between(notebook, low, high, ph)
    }

    /// The totals that make up for where the pH may really lie, were it not the best one.
    pub fn spread(&self, notebook: &Notebook, best: f64, ph: Range) -> Range {
        let ends = [ph.best + (ph.best - ph.low), ph.best - (ph.high - ph.best)];
        let [one, other] = ends.map(|end| self.reach(notebook, end).unwrap_or(best));
        Range::new(one.min(other).min(best), best, one.max(other).max(best))
    }

    /// Between two totals on either side of a pH.
    fn between(
        &self,
        notebook: &Notebook,
        low: (f64, f64),
        high: (f64, f64),
        ph: f64,
    ) -> Result<f64, Missed> {
        let (mut low, mut high) = (low, high);
        for round in 0..100 {
            let width = high.0 - low.0;
            if width <= 1e-7 * high.0 || (low.1 - ph).abs() < 1e-7 {
                break;
            }
            let chord = low.0 + width * (ph - low.1) / (high.1 - low.1);
            let inside = chord > low.0 + 0.01 * width && chord < high.0 - 0.01 * width;
            let middle = if inside && round % 3 != 2 {
                chord
            } else {
                f64::midpoint(low.0, high.0)
            };
            let there = self.ph(notebook, middle).map_err(Missed::Unsolved)?;
            if (there - ph) * (low.1 - ph) > 0.0 {
                low = (middle, there);
            } else {
                high = (middle, there);
            }
        }
        Ok(if (low.1 - ph).abs() < (high.1 - ph).abs() {
            low.0
        } else {
            high.0
        })
    }
}

/// The doses of a bath that are a material, by its name as written or as the pantry knows it.
pub(super) fn places(notebook: &Notebook, bath: &Bath, material: &str) -> Result<Vec<usize>, String> {
    let found = held(notebook, bath, material);
    if !found.is_empty() {
        return Ok(found);
    }
    let names = || bath.doses.iter().map(|dose| dose.name.value.as_str());
    Err(match nearest(material, names()) {
        Some(near) => format!("`{}` has no `{material}`; did you mean `{near}`?", bath.id),
        None => format!(
            "`{}` has no `{material}`; it holds {}",
            bath.id,
            names().collect::<Vec<_>>().join("; ")
        ),
    })
}

/// The same, none where it is not in the bath.
fn held(notebook: &Notebook, bath: &Bath, material: &str) -> Vec<usize> {
    let asked = notebook.pantry.look_up(material);
    let is_asked = |dose: &Dose| match (&asked, &dose.known) {
        // Vinegar of another strength is another material; one that says none is whichever is there.
        (
            Lookup::Found { material, strength },
            Known::Material {
                material: own,
                strength: of_own,
            },
        ) => material.id == own.id && (strength.is_none() || strength == of_own),
        (Lookup::Formula { formula: one, .. }, Known::Formula(own)) => one == own,
        // One word for several forms, of which the bath holds one.
        (
            Lookup::NeedsForm { forms, .. } | Lookup::Ambiguous(forms),
            Known::Material { material: own, .. },
        ) => forms.iter().any(|form| form.id == own.id),
        _ => false,
    };
    let doses = bath.doses.iter().enumerate();
    let by_name: Vec<usize> = doses
        .clone()
        .filter(|(_, dose)| dose.name.value == material)
        .map(|(at, _)| at)
        .collect();
    if !by_name.is_empty() {
        return by_name;
    }
    doses
        .filter(|(_, dose)| is_asked(dose))
        .map(|(at, _)| at)
        .collect()
}

/// What a name means, where it means one thing that can be dosed.
fn known_exactly(notebook: &Notebook, material: &str) -> Result<Known, String> {
    match known(notebook, material) {
        Known::NeedsForm { forms, .. } => {
            Err(format!("`{material}` does not say which: {}", forms.join("; ")))
        }
        Known::Ambiguous { names, .. } => {
            Err(format!("`{material}` may be any of these: {}", names.join("; ")))
        }
        Known::Unknown {
            malformed: Some(why), ..
        } => Err(format!("`{material}`: {why}")),
        Known::Unknown {
            nearest: Some(near), ..
        } => Err(format!("`{material}` is not known; did you mean `{near}`?")),
        Known::Unknown { .. } => Err(format!("`{material}` is not known")),
        known => Ok(known),
    }
}

/// Liquids are poured, all else is weighed.
fn counted(known: &Known) -> Dimension {
    if known.is_poured() {
        Dimension::Volume
    } else {
        Dimension::Mass
    }
}

/// The decimals that show a number as it is, three at most.
fn decimals(value: f64) -> u8 {
    let shown = |decimals: &u8| {
        let scale = libm::pow(10.0, f64::from(*decimals));
        (libm::round(value * scale) / scale - value).abs() < 1e-6
    };
    (0..3).find(shown).unwrap_or(3)
}

/// How much a dose is, in grams or litres.
pub(super) fn amount_of(dose: &Dose, counted: Dimension, litres: Range) -> Option<Range> {
    if counted == Dimension::Volume {
        let material = dose.material()?;
        return match dose.amount.dimension {
            Dimension::Mass | Dimension::Volume => {
                counted_in(material, dose.amount.range, dose.amount.dimension, counted)
            }
            Dimension::VolumeFraction => Some(dose.amount.range * litres),
            _ => None,
        };
    }
    dose.grams(litres)
}

/// An amount to be filled in, at the place of a dose.
fn figure(counted: Dimension, at: &Dose) -> Result<Figure, String> {
    let one = if counted == Dimension::Volume {
        "1 ml"
    } else {
        "1 g"
    };
    let amount = parse(one, &[counted], Style::default()).map_err(|mistake| mistake.message)?;
    Ok(Figure {
        amount,
        span: at.amount.span,
        evidence: None,
        read_from: None,
    })
}
