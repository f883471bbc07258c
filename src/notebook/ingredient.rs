//! The `ingredient` block: a material of the notebook's own, or a correction to one of the pantry.

use crate::finding::{Finding, slug};
use crate::source::Spanned;
use crate::syntax::Node;
use crate::units::Dimension::{
    Count, Density, Mass, MassConcentration, MassFraction, Share, Volume, VolumeFraction,
};

use super::date::When;
use super::field::{Field, Shape};
use super::keys::Keys;
use super::lower::{Figure, Lower};
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
    let mut ingredient = read(keys);
    let liquid =
        matches!(&ingredient.form, Slot::Is(form) if Form::from_word(form.value) == Some(Form::Liquid));
    keep(&mut ingredient.purity, keys.lower, |purity| {
        (purity.range.low <= 0.0 || purity.range.high > 1.0)
            .then_some(("a purity lies above nothing and at most at 100 %", HOW_PURE))
    });
    keep(&mut ingredient.density, keys.lower, |density| {
        let per_millilitre = match density.dimension {
            MassConcentration => 1e-3,
            _ => 1.0,
        };
        let (low, high) = (
            density.range.low * per_millilitre,
            density.range.high * per_millilitre,
        );
        if high > DENSEST {
            Some((
                "nothing is as dense as that",
                "write grams to the millilitre: powders have about 1 g/ml",
            ))
        } else if liquid && low < LIGHTEST_LIQUID {
            Some((
                "no liquid is as light as that: this looks like a spoon of dry powder",
                "water has 1 g/ml; of a powder leave `form: liquid` out",
            ))
        } else {
            None
        }
    });
    keep(&mut ingredient.tablet, keys.lower, |tablet| {
        (tablet.range.low <= 0.0).then_some(("a tablet holds something", "write what is in one: `500 mg`"))
    });
    keep(&mut ingredient.pack, keys.lower, empty);
    whole(&mut ingredient.contains, keys.lower);
    statements(&ingredient.hazards, keys.lower);
    ingredient
}

/// The densest element, osmium, has 22.6 g/ml (CRC Handbook of Chemistry and Physics; from memory, unverified).
const DENSEST: f64 = 22.7;
/// Pentane, the lightest that is liquid in a room, has 0.63 g/ml (CRC Handbook of Chemistry and Physics; from memory,
/// unverified).
const LIGHTEST_LIQUID: f64 = 0.6;
const HOW_PURE: &str = "write how much of it is the material: `99 %`";

/// Reports a figure that cannot be, in words with their help, and breaks it.
fn keep(
    slot: &mut Slot<Figure>,
    lower: &mut Lower,
    wrong: impl Fn(&Figure) -> Option<(&'static str, &'static str)>,
) {
    if let Some(figure) = slot.get()
        && let Some((message, help)) = wrong(figure)
    {
        lower.report(Finding::fault(slug::AMOUNT_OUT_OF_RANGE, figure.span, message).help(help));
        *slot = Slot::Broken;
    }
}

/// A pack in which there is nothing has no price and no amount.
fn empty(pack: &Figure) -> Option<(&'static str, &'static str)> {
    (pack.range.low <= 0.0).then_some((
        "a pack holds something",
        "write what a full one holds, and what there is under `left`",
    ))
}

/// What a pack holds.
pub(super) fn pack(keys: &mut Keys<'_, '_>) -> Slot<Figure> {
    let mut pack = keys.figure("pack");
    keep(&mut pack, keys.lower, empty);
    pack
}

/// Refuses contents that come to more than the whole, from the one on that is too much.
fn whole(contains: &mut Vec<(Spanned<String>, Figure)>, lower: &mut Lower) {
    let mut least = 0.0;
    let over = contains.iter().position(|(_, share)| {
        if matches!(share.dimension, MassFraction | Share) {
            least += share.range.low;
        }
        least > 1.0 + 1e-9
    });
    if let Some((_, share)) = over.and_then(|at| contains.get(at)) {
        lower.report(
            Finding::fault(
                slug::AMOUNT_OUT_OF_RANGE,
                share.span,
                "the contents come to more than the whole",
            )
            .help("shares by mass add up to at most 100 %: check which of them is too large"),
        );
        contains.clear();
    }
}

/// Refuses what is no hazard statement: `H319`, `H360FD`, `EUH031`, or several joined by `+`.
fn statements(hazards: &[Spanned<String>], lower: &mut Lower) {
    let one = |code: &str| {
        let (digits, first) = match (code.strip_prefix("EUH"), code.strip_prefix('H')) {
            (Some(digits), _) => (digits, '0'..='4'),
            (None, Some(digits)) => (digits, '2'..='4'),
            (None, None) => return false,
        };
        let (number, letters) = digits.split_at_checked(3).unwrap_or((digits, ""));
        number.len() == 3
            && number.chars().all(|c| c.is_ascii_digit())
            && number.chars().next().is_some_and(|c| first.contains(&c))
            && letters.len() <= 3
            && letters.chars().all(|c| c.is_ascii_alphabetic())
    };
    for hazard in hazards {
        if !hazard.value.split('+').all(|code| one(code.trim())) {
            let message = format!("`{}` is no hazard statement", hazard.value);
            lower.report(
                Finding::fault(slug::WORD_UNKNOWN, hazard.span, message)
                    .help("write the code from the safety data sheet, such as `H319`"),
            );
        }
    }
}

fn read(keys: &mut Keys<'_, '_>) -> Ingredient {
    Ingredient {
        material: keys.text("material"),
        also: keys.texts("also"),
        formula: keys.text("formula"),
        contains: super::named::materials(keys, "contains", CONTENTS)
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
