//! The `recipe` block: a bath.

use crate::finding::{Finding, slug as rule};
use crate::source::{Span, Spanned};
use crate::syntax::Node;
use crate::units::Amount;
use crate::units::Dimension::{
    AmountOfSubstance, Count, Mass, MassConcentration, Molality, Molarity, Pressure, Temperature, Volume,
    VolumeFraction,
};

use super::Kind;
use super::field::{Field, Shape};
use super::keeps::{self, Keeps};
use super::keys::Keys;
use super::lower::{Figure, Lower};
use super::named::materials;
use super::nearest;
use super::slot::Slot;
use super::step::{self, Step};
use super::usage::{self, Usage};
use super::words::{Gas, Role, Verb};

/// A `recipe` block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Recipe {
    /// What the bath is for.
    pub role: Slot<Spanned<&'static str>>,
    /// The finished volume.
    pub makes: Slot<Figure>,
    /// Water put in, for a bath of one part.
    pub water: Slot<Water>,
    /// Materials of a bath of one part.
    pub add: Vec<Addition>,
    /// Parts that are mixed apart.
    pub parts: Vec<Part>,
    /// Steps of the whole bath.
    pub steps: Vec<Step>,
    /// What becomes of its carbon dioxide.
    pub gas: Slot<Spanned<GasMode>>,
    /// How it is used.
    pub usage: Usage,
    /// How long it keeps.
    pub keeps: Keeps,
    /// Facts that the author expects.
    pub expect: Vec<(Spanned<String>, Spanned<Amount>)>,
    /// The recipe this one differs from.
    pub based_on: Slot<Spanned<String>>,
    /// The author's own cautions.
    pub cautions: Vec<Spanned<String>>,
    /// Where it goes when it is spent.
    pub waste: Slot<Spanned<String>>,
    /// Where the recipe comes from.
    pub from: Slot<Spanned<String>>,
    /// Whether part of the materials could not be read, so that nothing may be concluded from what is not there.
    pub incomplete: bool,
}

impl Recipe {
    /// What the bath is for, where that is a known word.
    pub fn role(&self) -> Option<Role> {
        self.role.get().and_then(|role| Role::from_word(role.value))
    }

    /// The steps of the whole bath, then those of its parts.
    pub fn all_steps(&self) -> impl Iterator<Item = &Step> {
        let parts = self.parts.iter().flat_map(|part| &part.steps);
        self.steps.iter().chain(parts)
    }

    /// Whether one of them does this.
    pub fn does(&self, verb: Verb) -> bool {
        self.all_steps().any(|step| step.verb == verb)
    }
}

/// Water put into a bath, and how warm.
#[derive(Debug, Clone, PartialEq)]
pub struct Water {
    /// Volume, or mass.
    pub amount: Figure,
    /// Its temperature.
    pub at: Option<Amount>,
}

/// A material and how much of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Addition {
    /// The material, as written.
    pub material: Spanned<String>,
    /// How much.
    pub amount: Figure,
    /// Anything said after the amount, such as `leaf` in words.
    pub remark: Option<String>,
}

/// A part that is mixed apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Its name.
    pub name: Slot<Spanned<String>>,
    /// Water put in.
    pub water: Slot<Water>,
    /// Materials.
    pub add: Vec<Addition>,
    /// Steps.
    pub steps: Vec<Step>,
    /// What it yields.
    pub makes: Slot<Figure>,
    /// The whole part.
    pub span: Span,
}

/// What becomes of carbon dioxide, with the pressure where it stood.
#[derive(Debug, Clone, PartialEq)]
pub struct GasMode {
    /// Which.
    pub mode: Gas,
    /// The pressure of carbon dioxide it was left to.
    pub pressure: Option<Amount>,
}

const QUANTITY: &[crate::units::Dimension] = &[
    Mass,
    Volume,
    AmountOfSubstance,
    Count,
    MassConcentration,
    Molarity,
    Molality,
    VolumeFraction,
];

const PART: &[Field] = &[
    Field::required("name", Shape::Text, "the part's name"),
    Field::new(
        "water",
        Shape::Own("an amount, with `at 90 °C` after it if you like"),
        "water put in",
    ),
    Field::new(
        "add",
        Shape::Each(&Shape::Amount(QUANTITY)),
        "materials and amounts",
    ),
    Field::new(
        "steps",
        Shape::List(&Shape::Own("a step")),
        "what to do, in order",
    ),
    Field::new("makes", Shape::Amount(&[Volume]), "what the part yields"),
];

/// The keys of a `recipe` block.
pub(super) const FIELDS: &[Field] = &[
    Field::required("role", Shape::Word(Role::WORDS), "what the bath is for"),
    Field::required(
        "makes",
        Shape::Amount(&[Volume]),
        "the finished volume; water is made up to it",
    ),
    Field::new(
        "water",
        Shape::Own("an amount, with `at 90 °C` after it if you like"),
        "water put in",
    ),
    Field::new(
        "add",
        Shape::Each(&Shape::Amount(QUANTITY)),
        "materials and amounts",
    ),
    Field::new(
        "parts",
        Shape::List(&Shape::Map(PART)),
        "parts that are mixed apart",
    ),
    Field::new(
        "steps",
        Shape::List(&Shape::Own("a step")),
        "what to do, in order",
    ),
    Field::new(
        "gas",
        Shape::Own("held, fizzed, stood with a pressure, or aired"),
        "what becomes of its carbon dioxide",
    ),
    Field::new("use", Shape::Map(usage::FIELDS), "how it is used"),
    Field::new(
        "keeps",
        Shape::Map(keeps::FIELDS),
        "how long it keeps; one time, or one for each place",
    ),
    Field::new(
        "expect",
        Shape::Each(&Shape::Own("an amount")),
        "facts that you expect",
    ),
    Field::new(
        "based on",
        Shape::Reference(&[Kind::Recipe]),
        "the recipe that this one differs from",
    ),
    Field::new(
        "cautions",
        Shape::List(&Shape::Text),
        "your own cautions, printed as written",
    ),
    Field::new("waste", Shape::Text, "where it goes when it is spent"),
    Field::new("from", Shape::Text, "where the recipe comes from"),
];

/// The same keys where `based on` supplies what is missing.
pub(super) const FIELDS_BASED: &[Field] = &{
    let mut fields = [FIELDS[0]; FIELDS.len()];
    let mut at = 0;
    while at < FIELDS.len() {
        fields[at] = FIELDS[at];
        fields[at].required = false;
        at += 1;
    }
    fields
};

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Recipe {
    let before = keys.lower.findings.len();
    let add = additions(keys);
    let parts = parts(keys);
    let incomplete = keys.lower.findings.len() > before || keys.incomplete();
    let mut steps = step::lower(keys);
    if !incomplete {
        check_poured(keys.lower, &parts, &mut steps);
    }
    Recipe {
        role: keys.word("role"),
        makes: keys.figure("makes"),
        water: keys.slot("water", water),
        add,
        parts,
        steps,
        gas: keys.slot("gas", gas),
        usage: usage::lower(keys),
        keeps: keeps::lower(keys),
        expect: expect(keys),
        based_on: keys.reference("based on"),
        cautions: keys.texts("cautions"),
        waste: keys.text("waste"),
        from: keys.text("from"),
        incomplete,
    }
}

/// Parts that are poured and combined are parts of this recipe. Materials and vessels may be named there too, so that a
/// name which is near to no part is left alone.
fn check_poured(lower: &mut Lower, parts: &[Part], steps: &mut [Step]) {
    let names: Vec<&str> = parts
        .iter()
        .filter_map(|part| part.name.get())
        .map(|name| name.value.as_str())
        .collect();
    for poured in steps.iter_mut().flat_map(|step| &mut step.parts) {
        let same = |name: &&&str| name.to_lowercase() == poured.value.to_lowercase();
        if let Some(name) = names.iter().find(same) {
            (*name).clone_into(&mut poured.value);
            continue;
        }
        if let Some(near) = nearest(&poured.value, names.iter().copied()) {
            let message = format!("this recipe has no part `{}`", poured.value);
            let finding = Finding::fault(rule::REFERENCE_UNKNOWN, poured.span, message);
            lower.report(
                finding
                    .help(format!("did you mean `{near}`?"))
                    .replace(poured.span, near),
            );
        }
    }
}

fn additions(keys: &mut Keys<'_, '_>) -> Vec<Addition> {
    materials(keys, "add", QUANTITY)
        .into_iter()
        .map(|(material, amount, remark)| Addition {
            material,
            amount,
            remark,
        })
        .collect()
}

fn parts(keys: &mut Keys<'_, '_>) -> Vec<Part> {
    keys.maps("parts", |part| Part {
        name: part.text("name"),
        water: part.slot("water", water),
        add: additions(part),
        steps: step::lower(part),
        makes: part.figure("makes"),
        span: part.node_span(),
    })
}

/// `500 ml at 90 °C`, or a plain amount, by volume or by mass.
fn water(lower: &mut Lower, node: &Node) -> Option<Water> {
    let split = node
        .text()
        .and_then(|text| text.find(" at ").map(|at| (at, text.len())));
    let Some((at, end)) = split else {
        return lower
            .figure(node, &[Volume, Mass])
            .map(|amount| Water { amount, at: None });
    };
    let amount = lower.amount_in(node, 0..at, &[Volume, Mass]);
    let temperature = lower.amount_in(node, at + " at ".len()..end, &[Temperature]);
    let amount = amount?;
    let amount = Figure {
        span: amount.span,
        amount: amount.value,
        evidence: None,
        read_from: None,
    };
    Some(Water {
        amount,
        at: Some(temperature?.value),
    })
}

/// `held`, `fizzed`, `stood 0.01 atm` or `aired`.
fn gas(lower: &mut Lower, node: &Node) -> Option<Spanned<GasMode>> {
    let text = lower.scalar(node, "a gas mode")?;
    if let Some(pressure) = text.strip_prefix("stood ") {
        let start = text.len() - pressure.trim_start().len();
        let pressure = lower.amount_in(node, start..text.len(), &[Pressure])?;
        return Some(Spanned::new(
            GasMode {
                mode: Gas::Stood,
                pressure: Some(pressure.value),
            },
            node.span,
        ));
    }
    let word = lower.word(node, Gas::WORDS)?;
    let mode = Gas::from_word(word.value)?;
    if mode == Gas::Stood {
        lower.report(
            Finding::fault(
                rule::VALUE_MISSING,
                node.span,
                "`stood` wants the pressure it stood to",
            )
            .help("write it as `stood 0.01 atm`"),
        );
        return None;
    }
    Some(Spanned::new(GasMode { mode, pressure: None }, node.span))
}

/// Facts expected, of any dimension: what a fact is measured in is known only when it is computed.
fn expect(keys: &mut Keys<'_, '_>) -> Vec<(Spanned<String>, Spanned<Amount>)> {
    materials(keys, "expect", &crate::units::Dimension::ALL)
        .into_iter()
        .map(|(name, figure, _)| (name, Spanned::new(figure.amount, figure.span)))
        .collect()
}
