//! A recipe as plain numbers that have only to be multiplied and rounded: what the weighing sheet of `trayside mix` is made
//! from, and what the site ships for its script to do the same.
//!
//! Everything that takes the pantry, the shelf or a formula to know is settled here, once, for the volume that the recipe
//! makes. What is left is arithmetic in sums, products and quotients of binary fractions of 64 bits, which IEEE 754 fixes
//! to the last bit in Rust and in every browser alike; decimal fractions are rounded to digits in `units`, where a value
//! within a hair of a half counts as one. So a script that takes the same steps in the same order comes to the same text.

mod amount;
mod gather;
mod page;

use serde::Serialize;

use crate::units::{Dimension, Range};

pub(super) use amount::Plain;
pub(super) use gather::scaling;
pub(super) use page::of_page;

/// A recipe, ready to be multiplied.
#[derive(Debug, Clone, Serialize)]
pub(super) struct Scaling {
    /// What it makes, l.
    pub(super) makes: Range,
    /// Its materials, in the order of the bath.
    pub(super) doses: Vec<DosePlan>,
    /// What is measured out, part by part.
    pub(super) groups: Vec<GroupPlan>,
    /// The steps of mixing.
    pub(super) steps: Vec<StepPlan>,
    /// Water put in; nothing where nothing can be said of it.
    pub(super) waters: Option<Vec<WaterPlan>>,
    /// Whether gas comes off.
    pub(super) fizzes: bool,
    /// Of a stock, how it is used.
    pub(super) dilution: Option<DilutionPlan>,
    /// How long it takes: one list a part, and the whole behind them.
    pub(super) times: Vec<Vec<TimePlan>>,
}

/// A material and everything about it that follows the volume.
#[derive(Debug, Clone, Serialize)]
pub(super) struct DosePlan {
    /// As written.
    pub(super) name: String,
    /// As its packet is called, where that is another form or strength.
    pub(super) called: String,
    /// How it is measured out.
    pub(super) measure: MeasurePlan,
    /// Grams of what is written.
    pub(super) grams: Option<Range>,
    /// Grams of the packet, where it is weighed.
    pub(super) weighed: Option<Range>,
    /// Of tablets that the recipe counts: what each holds.
    pub(super) each: Option<EachPlan>,
    /// Whether the packet is another form.
    pub(super) other_form: bool,
    /// The part of its weight that is water of crystallisation.
    pub(super) water_share: Option<f64>,
    /// What its number would do, weighed from another form.
    pub(super) slip: Option<SlipPlan>,
    /// What to say of a bottle of another strength.
    pub(super) strength: Option<StrengthPlan>,
    /// The tablets on the shelf that hold it.
    pub(super) tablets: Option<TabletsPlan>,
    /// Grams of a level millilitre of it.
    pub(super) bulk: Option<Range>,
    /// Of a powder that the recipe gives by the spoon.
    pub(super) spooned: Option<SpoonedPlan>,
    /// Millilitres of water that it keeps back.
    pub(super) keeps: Option<Range>,
    /// What it takes from the shelf.
    pub(super) takes: Option<TakesPlan>,
}

/// How a material is measured out.
#[derive(Debug, Clone, Serialize)]
#[serde(rename_all = "lowercase", tag = "by")]
pub(super) enum MeasurePlan {
    /// As written, so many times.
    Scaled { amount: Plain, times: f64 },
    /// In grams, to the scale's step; `written` where it was written as a weight of the same.
    Weighed { written: Option<Plain> },
    /// As a volume.
    Volume { litres: Range },
    /// As it stands, whatever the volume.
    Fixed { text: String },
}

/// Tablets counted by the recipe.
#[derive(Debug, Clone, Serialize)]
pub(super) struct EachPlan {
    pub(super) grams: f64,
    pub(super) text: String,
}

/// The number, weighed from another form.
#[derive(Debug, Clone, Serialize)]
pub(super) struct SlipPlan {
    pub(super) grams: Range,
    /// Grams that they would be.
    pub(super) ratio: f64,
    pub(super) form: &'static str,
    pub(super) family: String,
    pub(super) meant: &'static str,
}

/// Another strength.
#[derive(Debug, Clone, Serialize)]
pub(super) struct StrengthPlan {
    pub(super) there: String,
    pub(super) amount: Plain,
    pub(super) wanted: String,
    /// How two bottles make what is wanted.
    pub(super) cross: Option<String>,
}

/// Tablets on the shelf.
#[derive(Debug, Clone, Serialize)]
pub(super) struct TabletsPlan {
    pub(super) packet: String,
    pub(super) active: f64,
}

/// By the spoon: grams, where anybody knows.
#[derive(Debug, Clone, Serialize)]
pub(super) struct SpoonedPlan {
    pub(super) grams: Option<Range>,
}

/// What is taken from the shelf.
#[derive(Debug, Clone, Serialize)]
pub(super) struct TakesPlan {
    /// The packet, else the material.
    pub(super) name: String,
    /// How much, in the canonical unit.
    pub(super) range: Range,
    #[serde(serialize_with = "measured")]
    pub(super) dimension: Dimension,
    /// What there is now.
    pub(super) there: Option<Range>,
    /// Whether the shelf has it at all.
    pub(super) shelved: bool,
}

/// A part of the bath.
#[derive(Debug, Clone, Serialize)]
pub(super) struct GroupPlan {
    pub(super) name: Option<String>,
    pub(super) rows: Vec<RowPlan>,
}

/// One thing to measure out.
#[derive(Debug, Clone, Serialize)]
#[serde(rename_all = "lowercase", tag = "is")]
pub(super) enum RowPlan {
    Water { label: String, amount: Box<Plain> },
    Dose { at: usize },
    Up { litres: Range },
}

/// Water put in.
#[derive(Debug, Clone, Serialize)]
pub(super) struct WaterPlan {
    pub(super) range: Range,
    /// Whether it is in litres; grams else.
    pub(super) litres: bool,
}

/// How a stock is used.
#[derive(Debug, Clone, Serialize)]
pub(super) struct DilutionPlan {
    pub(super) text: String,
    pub(super) water: f64,
}

/// A time of a step.
#[derive(Debug, Clone, Serialize)]
pub(super) struct TimePlan {
    /// Nothing where it is not known.
    pub(super) time: Option<Range>,
    /// What it is called, where it follows the volume: it cools.
    pub(super) cools: Option<String>,
}

/// A step, with figures that follow the volume still open.
#[derive(Debug, Clone, Serialize)]
pub(super) struct StepPlan {
    pub(super) part: Option<String>,
    pub(super) what: String,
    pub(super) figures: Vec<FigurePlan>,
    pub(super) notes: Vec<String>,
    /// The vessel it is done in.
    pub(super) vessel: Option<String>,
    /// What is said behind the vessel at any volume but the recipe's own.
    pub(super) vessel_for: Option<String>,
}

/// A figure of a step.
#[derive(Debug, Clone, Serialize)]
#[serde(rename_all = "lowercase", tag = "is")]
pub(super) enum FigurePlan {
    Text {
        text: String,
    },
    /// To three digits.
    Volume {
        litres: Range,
    },
    /// To two digits: nobody measured it.
    First {
        litres: f64,
    },
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "this is how serde hands it over"
)]
fn measured<S: serde::Serializer>(dimension: &Dimension, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(match dimension {
        Dimension::Mass => "mass",
        Dimension::Volume => "volume",
        _ => "count",
    })
}
