//! From `ingredient` blocks to the pantry: what the notebook knows of its own packets and plants.

use std::fmt::Write as _;

use crate::finding::{Finding, slug as rule};
use crate::pantry::{self, Basis, Figure as Known, Formula, NOTEBOOK_SOURCE, Property, Share, Status};
use crate::units::{Amount, Dimension};

use super::ingredient::Ingredient;
use super::lower::Figure;
use super::words::Evidence;
use super::{Block, Body};
use crate::syntax::slug;

/// The materials that the notebook's `ingredient` blocks describe.
pub(super) fn own(blocks: &[Block], findings: &mut Vec<Finding>) -> Vec<pantry::Material> {
    let mut own = Vec::new();
    for block in blocks {
        if let Body::Ingredient(ingredient) = &block.body
            && let Some(material) = material(ingredient, findings)
        {
            own.push(material);
        }
    }
    own
}

fn material(ingredient: &Ingredient, findings: &mut Vec<Finding>) -> Option<pantry::Material> {
    let name = &ingredient.material.get()?.value;
    let mut material = pantry::Material::new(slug(name), name.clone(), NOTEBOOK_SOURCE);
    material.also.insert(
        "en".to_owned(),
        ingredient.also.iter().map(|also| also.value.clone()).collect(),
    );
    if let Some(formula) = ingredient.formula.get() {
        match Formula::parse(&formula.value) {
            Ok(parsed) => material.formula = Some(parsed),
            Err(error) => {
                let mut message = format!("`{}` is no chemical formula", formula.value);
                if error.is_malformed() {
                    let _ = write!(message, ": {error}");
                }
                let span = formula.part(error.range);
                findings.push(
                    Finding::fault(rule::FORMULA_MALFORMED, span, message)
                        .help("write it as `Na2CO3` or `Na2CO3·10H2O`"),
                );
            }
        }
    }
    material.form = ingredient
        .form
        .get()
        .and_then(|form| pantry::Form::from_word(form.value));
    material.of = ingredient.of.get().map(|of| slug(&of.value));
    material.purity = fraction(ingredient.purity.get());
    // What is told by the volume that it is in is poured.
    let poured = |(_, share): &(_, Figure)| share.dimension == Dimension::MassConcentration;
    if material.form.is_none() && ingredient.contains.iter().any(poured) {
        material.form = Some(pantry::Form::Liquid);
    }
    if let Some(density) = ingredient.density.get() {
        let liquid = material.form == Some(pantry::Form::Liquid);
        let grams_per_millilitre = known(
            density,
            if density.dimension == Dimension::MassConcentration {
                1e-3
            } else {
                1.0
            },
        );
        if liquid {
            material.density = grams_per_millilitre;
        } else {
            // A level spoon holds 5 ml.
            material.spoon = known(
                density,
                if density.dimension == Dimension::MassConcentration {
                    5e-3
                } else {
                    5.0
                },
            );
        }
    }
    material.tablet_active = ingredient.tablet.get().and_then(|tablet| known(tablet, 1.0));
    material.hazards = ingredient
        .hazards
        .iter()
        .map(|hazard| hazard.value.clone())
        .collect();
    material.hazards_source = (!material.hazards.is_empty()).then(|| NOTEBOOK_SOURCE.to_owned());
    for (contained, figure) in &ingredient.contains {
        if let Some(share) = share(&contained.value, figure) {
            material.contains.push(share);
        }
    }
    if ingredient.plant.get().is_some() {
        material.properties.insert(Property::Plant);
    }
    Some(material.with_derived_properties())
}

fn share(contained: &str, figure: &Figure) -> Option<Share> {
    let basis = match figure.dimension {
        Dimension::MassConcentration => Basis::GramsPerLitre,
        Dimension::MassFraction | Dimension::Share => Basis::MassFraction,
        _ => return None,
    };
    let amount = known(figure, 1.0)?;
    Some(Share {
        material: contained.to_owned(),
        amount,
        basis,
        equivalents: false,
        extracted: None,
    })
}

fn fraction(figure: Option<&Figure>) -> Option<Known> {
    figure.and_then(|figure| known(figure, 1.0))
}

fn known(figure: &Figure, factor: f64) -> Option<Known> {
    let Amount { range, .. } = &figure.amount;
    let status = match figure.evidence {
        Some(Evidence::Measured) => Status::Measured,
        Some(Evidence::Guessed) => Status::Memory,
        Some(Evidence::Read) | None => Status::Read,
    };
    Known::new(
        range.low * factor,
        range.best * factor,
        range.high * factor,
        status,
        NOTEBOOK_SOURCE,
    )
}
