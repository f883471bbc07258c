//! Why no amount of a material makes a pH: how much of it can be taken at all, and what that comes to.

use crate::chem::solubility_at;
use crate::facts::bath::Bath;
use crate::facts::dose::Known;
use crate::pantry::Property;
use crate::units::scalar::Temperature;
use crate::units::{Dimension, Range};

/// The most of a powder that is tried, in grams to the litre of bath: hardly anything that is asked for here dissolves
/// better, and what does leaves no room for water. Common practice, no source.
const MOST_GRAMS: f64 = 800.0;
/// The most of a liquid that is tried, as a share of the finished volume.
const MOST_SHARE: f64 = 0.95;
/// How many of its own molecules a charge of alkali can bring into solution: one of an acid, up to five of boric acid, by
/// way of pentaborate. Baes and Mesmer, The Hydrolysis of Cations, 1976; from memory, unverified. On the large side.
const WITH_A_CHARGE: (f64, f64) = (1.0, 5.0);
/// A pH this near to another is read as the same.
const SAME: f64 = 0.05;

/// Why there is no more of a material to be tried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Limit {
    /// It does not dissolve, at so many degrees Celsius.
    Dissolves(f64),
    /// A liquid would leave no room for the rest.
    Room,
    /// Hardly anything dissolves better, and nobody measured that this does not.
    Tried,
}

/// The most of a material in a bath.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Ceiling {
    /// In grams or litres.
    pub total: f64,
    pub limit: Limit,
}

/// Why no amount makes a pH.
#[derive(Debug, Clone, PartialEq)]
pub enum Missed {
    /// However much is taken, or left out, the pH comes no nearer.
    OutOfReach(OutOfReach),
    /// The bath cannot be computed.
    Unsolved(String),
}

/// What can be had instead.
#[derive(Debug, Clone, PartialEq)]
pub struct OutOfReach {
    /// The least total that comes as near as any, in grams or litres.
    pub at: f64,
    /// The pH that comes nearest.
    pub nearest: f64,
    /// The lowest pH that any total makes.
    pub lowest: f64,
    /// The highest.
    pub highest: f64,
    /// Why no more of it can be taken, where more would come nearer.
    pub limit: Option<Limit>,
}

impl OutOfReach {
    /// What totals with their pH say of a pH that none of them has; nothing where there are none.
    pub(super) fn of(tried: &[(f64, f64)], ph: f64, most: Ceiling) -> Option<Self> {
        let off = |one: &&(f64, f64)| (one.1 - ph).abs();
        let &(at, nearest) = tried
            .iter()
            .min_by(|one, other| off(one).total_cmp(&off(other)))?;
        let all = || tried.iter().map(|one| one.1);
        // Where it has levelled off, a heap does no more than a spoon.
        let as_near = tried
            .iter()
            .filter(|one| at > 0.0 && one.0 > 0.0 && (one.1 - nearest).abs() < SAME);
        let least = as_near.map(|one| one.0).fold(at, f64::min);
        Some(Self {
            at: least,
            nearest,
            lowest: all().fold(f64::INFINITY, f64::min),
            highest: all().fold(f64::NEG_INFINITY, f64::max),
            limit: (least >= most.total).then_some(most.limit),
        })
    }
}

/// How much of a material a bath can hold at the coldest that it is used.
pub(super) fn ceiling(bath: &Bath, known: Option<&Known>, counted: Dimension) -> Ceiling {
    let litres = bath.litres().map_or(1.0, |litres| litres.best);
    if counted == Dimension::Volume {
        return Ceiling {
            total: MOST_SHARE * litres,
            limit: Limit::Room,
        };
    }
    let celsius = bath
        .recipe
        .usage
        .temperature
        .get()
        .map_or(20.0, |warm| warm.range.low);
    let dissolves = || {
        let Some(Known::Material { material, .. }) = known else {
            return None;
        };
        let limit = solubility_at(material, Temperature::from_celsius(celsius))?;
        let is = |property| material.properties.contains(property);
        let own = limit.grams_per_kilogram.high * litres;
        // An alkali takes up what is acid.
        let acid = is(Property::Acid) || is(Property::Phenolic) || is(Property::Borate);
        if !acid || is(Property::Alkali) {
            return Some(own);
        }
        let charges = charges_of_alkali(bath, litres);
        if charges == 0.0 {
            return Some(own);
        }
        let (acid, boric) = WITH_A_CHARGE;
        let each = if is(Property::Borate) { boric } else { acid };
        Some(own + charges * each * material.formula.as_ref()?.molar_mass())
    };
    let most = MOST_GRAMS * litres;
    match dissolves().filter(|total| *total < most) {
        Some(total) => Ceiling {
            total,
            limit: Limit::Dissolves(celsius),
        },
        None => Ceiling {
            total: most,
            limit: Limit::Tried,
        },
    }
}

/// Moles of charge that the bath's alkalis can neutralise: two a mole, which is right for carbonate and more than a hydroxide
/// has.
fn charges_of_alkali(bath: &Bath, litres: f64) -> f64 {
    let alkalis = bath.doses.iter().filter(|dose| dose.is(Property::Alkali));
    alkalis
        .filter_map(|dose| dose.moles(Range::exact(litres)))
        .map(|moles| 2.0 * moles.high)
        .sum()
}
