//! The `ingredient` block: a material of the notebook's own, or a correction to one of the pantry.

use crate::finding::{Finding, slug};
use crate::source::Spanned;
use crate::syntax::Node;
use crate::units::Dimension::{
    Count, Density, Mass, MassConcentration, MassFraction, Share, Volume, VolumeFraction,
};

use super::date::When;
use super::field::{Field, Shape};
use super::lower::{Figure, Keys, Lower};
use super::slot::Slot;
use super::words::words;

words! {
    /// The form in which a material comes.
    Form {
        /// Free of water.
        Anhydrous = "anhydrous",
        /// With one water of crystallisation.
        Monohydrate = "monohydrate",
        /// Crystals, with all their water.
        Crystals = "crystals",
        /// Fresh, of plants.
        Fresh = "fresh",
        /// Dried, of plants.
        Dried = "dried",
        /// A liquid.
        Liquid = "liquid",
        /// A tablet.
        Tablet = "tablet",
    }
}

/// An `ingredient` block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ingredient {
    /// Its name.
    pub material: Slot<Spanned<String>>,
    /// Other names.
    pub also: Vec<Spanned<String>>,
    /// Its chemical formula.
    pub formula: Slot<Spanned<String>>,
    /// Materials it contains, with their shares.
    pub contains: Vec<(Spanned<String>, Figure)>,
    /// The form it comes in.
    pub form: Slot<Spanned<&'static str>>,
    /// The material it is a form of.
    pub of: Slot<Spanned<String>>,
    /// Share of the stated material by mass.
    pub purity: Slot<Figure>,
    /// Bulk density of powders, density of liquids.
    pub density: Slot<Figure>,
    /// Mass of active material in one tablet.
    pub tablet: Slot<Figure>,
    /// What dissolves in water.
    pub soluble: Slot<Figure>,
    /// What a pack holds.
    pub pack: Slot<Figure>,
    /// What a pack costs.
    pub price: Slot<Spanned<Price>>,
    /// GHS hazard statements, such as `H319`.
    pub hazards: Vec<Spanned<String>>,
    /// Where the figures come from.
    pub source: Slot<Spanned<String>>,
    /// Where a plant comes from.
    pub plant: Slot<Plant>,
}

/// What is known of a plant that goes into a bath.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plant {
    /// Botanical or common name.
    pub name: Slot<Spanned<String>>,
    /// The part used.
    pub part: Slot<Spanned<String>>,
    /// The plant family, for allergies.
    pub family: Slot<Spanned<String>>,
    /// When it was picked.
    pub picked: Slot<Spanned<When>>,
    /// Where it was picked.
    pub place: Slot<Spanned<String>>,
    /// Who allowed the picking.
    pub allowed_by: Slot<Spanned<String>>,
    /// Who is sure what plant it is.
    pub named_by: Slot<Spanned<String>>,
}

/// A price, in whatever currency the notebook uses throughout.
#[derive(Debug, Clone, PartialEq)]
pub struct Price {
    /// The number.
    pub amount: f64,
    /// The currency's word or sign, as written; empty where none was.
    pub currency: String,
}

const CONTENTS: &[crate::units::Dimension] = &[MassFraction, MassConcentration, VolumeFraction, Share];

const PLANT: &[Field] = &[
    Field::new("name", Shape::Text, "the plant's name"),
    Field::new("part", Shape::Text, "leaf, flower, root"),
    Field::new("family", Shape::Text, "the plant family, for allergies"),
    Field::new("picked", Shape::Date, "when"),
    Field::new("where", Shape::Text, "where"),
    Field::new("allowed by", Shape::Text, "who allowed the picking"),
    Field::new("named by", Shape::Text, "who is sure what plant it is"),
];

/// The keys of an `ingredient` block.
pub(super) const FIELDS: &[Field] = &[
    Field::required("material", Shape::Text, "the material's name"),
    Field::new("also", Shape::List(&Shape::Text), "other names for it"),
    Field::new(
        "formula",
        Shape::Text,
        "its chemical formula, such as Na2CO3·10H2O",
    ),
    Field::new(
        "contains",
        Shape::Each(&Shape::Amount(CONTENTS)),
        "what it holds, and how much of it",
    ),
    Field::new("form", Shape::Word(Form::WORDS), "the form it comes in"),
    Field::new("of", Shape::Text, "the material it is a form of"),
    Field::new(
        "purity",
        Shape::Amount(&[Share, MassFraction]),
        "how pure it is, by mass",
    ),
    Field::new(
        "density",
        Shape::Amount(&[Density, MassConcentration]),
        "grams to the millilitre, of powders as heaped in a level spoon",
    ),
    Field::new("tablet", Shape::Amount(&[Mass]), "active mass in one tablet"),
    Field::new(
        "soluble",
        Shape::Amount(&[MassConcentration, MassFraction]),
        "how much of it water takes",
    ),
    Field::new("pack", Shape::Amount(&[Mass, Volume, Count]), "what a pack holds"),
    Field::new(
        "price",
        Shape::Own("a number, with the currency after it"),
        "what a pack costs",
    ),
    Field::new(
        "hazards",
        Shape::List(&Shape::Text),
        "GHS hazard statements, such as H319",
    ),
    Field::new("source", Shape::Text, "where the figures come from"),
    Field::new("plant", Shape::Map(PLANT), "where a plant comes from"),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Ingredient {
    Ingredient {
        material: keys.text("material"),
        also: keys.texts("also"),
        formula: keys.text("formula"),
        contains: super::lower::materials(keys, "contains", CONTENTS)
            .into_iter()
            .map(|(name, figure, _)| (name, figure))
            .collect(),
        form: keys.word("form"),
        of: keys.text("of"),
        purity: keys.figure("purity"),
        density: keys.figure("density"),
        tablet: keys.figure("tablet"),
        soluble: keys.figure("soluble"),
        pack: keys.figure("pack"),
        price: keys.slot("price", price),
        hazards: keys.texts("hazards"),
        source: keys.text("source"),
        plant: keys.map("plant", |keys| Plant {
            name: keys.text("name"),
            part: keys.text("part"),
            family: keys.text("family"),
            picked: keys.when("picked"),
            place: keys.text("where"),
            allowed_by: keys.text("allowed by"),
            named_by: keys.text("named by"),
        }),
    }
}

/// Reads `2.40`, `2.40 EUR` or `€ 2.40`.
pub(super) fn price(lower: &mut Lower, node: &Node) -> Option<Spanned<Price>> {
    let text = lower.scalar(node, "a price")?.trim();
    let is_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '−');
    let start = text.find(is_number).unwrap_or(0);
    let length = text
        .get(start..)
        .map_or(0, |rest| rest.find(|c| !is_number(c)).unwrap_or(rest.len()));
    let number = text.get(start..start + length).unwrap_or("").replace('−', "-");
    let number = match lower.style.decimal {
        crate::units::Decimal::Comma => number.replace(',', "."),
        crate::units::Decimal::Point => number,
    };
    let currency = format!(
        "{}{}",
        text.get(..start).unwrap_or(""),
        text.get(start + length..).unwrap_or("")
    );
    let currency = currency.trim().to_owned();
    match number.parse::<f64>() {
        Ok(amount) if amount >= 0.0 && amount.is_finite() && currency.chars().count() <= 12 => {
            Some(Spanned::new(Price { amount, currency }, node.span))
        }
        Ok(amount) if amount < 0.0 => {
            lower.report(
                Finding::fault(slug::AMOUNT_OUT_OF_RANGE, node.span, "a price cannot be negative")
                    .help("write what a pack costs, such as `2.40`"),
            );
            None
        }
        _ => {
            lower.report(
                Finding::fault(slug::AMOUNT_MALFORMED, node.span, format!("`{text}` is no price"))
                    .help("write a number, with the currency after it if you like: `2.40 EUR`"),
            );
            None
        }
    }
}
