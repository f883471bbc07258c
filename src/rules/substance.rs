//! How much of a substance a bath holds, whatever packet brought it.
//!
//! Packets, solutions and juices are taken apart into formulas, so that a rule which asks for carbonate or acetic acid
//! finds it under any name.

use crate::facts::{Bath, Dose, Known};
use crate::notebook::Notebook;
use crate::pantry::{
    Basis, Figure, Form, Formula, Lookup, Material, PercentBasis, Property, Strength, properties_of_formula,
};
use crate::units::{Dimension, Range};

/// What a dose or bath holds: pure substances with their grams.
pub(super) type Contents = Vec<(Formula, Range)>;

/// The volume to reckon with where a bath does not say what it makes; only strengths given per litre need it.
const ONE_LITRE: Range = Range::exact(1.0);

/// The pure substances of a whole bath; none where an amount of one of its materials cannot be told in grams.
pub(super) fn contents(notebook: &Notebook, bath: &Bath) -> Option<Contents> {
    let litres = bath.litres().unwrap_or(ONE_LITRE);
    let mut all = Contents::new();
    for dose in &bath.doses {
        all.extend(of_dose(notebook, dose, litres)?);
    }
    Some(all)
}

/// The pure substances of one dose in a bath of `litres`; none where its amount cannot be told in grams. A material of
/// which nothing is known holds nothing.
pub(super) fn of_dose(notebook: &Notebook, dose: &Dose, litres: Range) -> Option<Contents> {
    match &dose.known {
        Known::Formula(formula) => Some(vec![(formula.clone(), dose.grams(litres)?)]),
        Known::Material { material, strength } => {
            let strength = strength.filter(|strength| *strength != Strength::PURE);
            if let Some(formula) = &material.formula {
                let grams = match strength {
                    Some(strength) if dose.known.solution().is_none() => {
                        dissolved(dose, material, strength, litres)?
                    }
                    _ => dose.grams(litres)?,
                };
                return Some(vec![(formula.clone(), grams)]);
            }
            of_mixture(notebook, dose, material, strength, litres)
        }
        Known::NeedsForm { .. } | Known::Ambiguous { .. } => None,
        Known::Unknown { .. } => Some(Contents::new()),
    }
}

fn of_mixture(
    notebook: &Notebook,
    dose: &Dose,
    material: &Material,
    strength: Option<Strength>,
    litres: Range,
) -> Option<Contents> {
    let mut held = Contents::new();
    for (at, share) in material.contains.iter().enumerate() {
        let Some(formula) = formula_named(notebook, &share.material) else {
            continue;
        };
        let amount = share.amount.range();
        let grams = match (strength, share.basis) {
            (Some(strength), _) if at == 0 => dissolved(dose, material, strength, litres)?,
            (_, Basis::MassFraction) => dose.grams(litres)? * amount,
            (_, Basis::GramsPerLitre) => millilitres(dose, material)? * amount.scale(1e-3),
        };
        held.push((formula, grams));
    }
    Some(held)
}

/// Grams of what a strength in per cent speaks of. Without a basis it is read as vinegar labels are, in 100 ml.
fn dissolved(dose: &Dose, material: &Material, strength: Strength, litres: Range) -> Option<Range> {
    let share = strength.share();
    match strength.basis {
        Some(PercentBasis::ByMass) => Some(dose.grams(litres)? * share),
        None | Some(PercentBasis::MassByVolume | PercentBasis::ByVolume) => {
            Some(millilitres(dose, material)? * share)
        }
    }
}

fn millilitres(dose: &Dose, material: &Material) -> Option<Range> {
    match dose.amount.dimension {
        Dimension::Volume => Some(dose.amount.range.scale(1000.0)),
        Dimension::Mass => {
            // Juices and vinegars weigh about as much as water.
            let density = material.density.as_ref().map_or(Range::exact(1.0), Figure::range);
            dose.amount.range.checked_div(density)
        }
        _ => None,
    }
}

fn formula_named(notebook: &Notebook, name: &str) -> Option<Formula> {
    if let Some(material) = notebook.pantry.get(name) {
        return material.formula.clone();
    }
    match notebook.pantry.look_up(name) {
        Lookup::Found { material, .. } => material.formula.clone(),
        Lookup::Formula { formula, .. } => Some(formula),
        _ => None,
    }
}

/// Moles of every substance for which `each` tells how many of what is asked for one formula unit holds.
pub(super) fn moles(contents: &Contents, each: impl Fn(&Formula) -> f64) -> Range {
    let mut total = Range::ZERO;
    for (formula, grams) in contents {
        let per_unit = each(formula);
        if per_unit > 0.0 {
            total = total + grams.scale(per_unit / formula.molar_mass());
        }
    }
    total
}

fn has(formula: &Formula, property: Property) -> bool {
    properties_of_formula(formula).contains(property)
}

/// Carbonate ions in one formula unit; hydrogen carbonate does not count.
pub(super) fn carbonate(formula: &Formula) -> f64 {
    if has(formula, Property::Carbonate) {
        f64::from(formula.count("C"))
    } else {
        0.0
    }
}

/// Ascorbic acid molecules in one formula unit that still hold their acid hydrogen.
pub(super) fn ascorbic_acid(formula: &Formula) -> f64 {
    if has(formula, Property::Ascorbate) && has(formula, Property::Acid) {
        1.0
    } else {
        0.0
    }
}

/// Thiosulfate ions in one formula unit.
pub(super) fn thiosulfate(formula: &Formula) -> f64 {
    if has(formula, Property::Thiosulfate) {
        f64::from(formula.count("S")) / 2.0
    } else {
        0.0
    }
}

/// Sulfite ions in one formula unit: two in a metabisulfite.
pub(super) fn sulfite(formula: &Formula) -> f64 {
    if has(formula, Property::Sulfite) {
        f64::from(formula.count("S"))
    } else {
        0.0
    }
}

/// Acetic acid molecules in one formula unit.
pub(super) fn acetic(formula: &Formula) -> f64 {
    let plain = formula.count("C") == 2 && formula.count("H") == 4 && formula.count("O") == 2;
    if plain && formula.elements().len() == 3 {
        1.0
    } else {
        0.0
    }
}

/// Citric acid molecules in one formula unit, with or without water.
pub(super) fn citric(formula: &Formula) -> f64 {
    let bare = formula.anhydrous();
    if bare.count("C") == 6 && bare.count("H") == 8 && bare.count("O") == 7 && bare.elements().len() == 3 {
        1.0
    } else {
        0.0
    }
}

/// Hydrogen ions that one formula unit of an acid in its own right gives to a bath of about pH 4.5, at least.
///
/// Citric acid gives two of its three, and a sulfite's own acid hydrogen counts for nothing: it is what protects.
pub(super) fn acid_equivalents(formula: &Formula) -> f64 {
    if !has(formula, Property::Acid) || has(formula, Property::Sulfite) {
        return 0.0;
    }
    if citric(formula) > 0.0 || formula.count("S") == 1 && formula.count("H") == 2 {
        2.0
    } else {
        1.0
    }
}

/// Hydrogen ions that one formula unit of an alkali takes up before a bath falls to about pH 4.5.
pub(super) fn alkali_equivalents(formula: &Formula) -> f64 {
    if has(formula, Property::Carbonate) {
        2.0 * carbonate(formula)
    } else if has(formula, Property::Bicarbonate) {
        f64::from(formula.count("C"))
    } else if has(formula, Property::Borate) {
        f64::from(formula.count("B")) / 2.0
    } else if has(formula, Property::Alkali) {
        1.0
    } else if has(formula, Property::Sulfite) && !has(formula, Property::Acid) {
        sulfite(formula)
    } else {
        0.0
    }
}

/// Whether any reading of what was written has `property`: a word for several things may be the dangerous one.
pub(super) fn may_be(notebook: &Notebook, dose: &Dose, property: Property) -> bool {
    let (Known::Ambiguous { names, .. } | Known::NeedsForm { forms: names, .. }) = &dose.known else {
        return dose.is(property);
    };
    dose.is(property)
        || names
            .iter()
            .any(|name| matches!(notebook.pantry.look_up(name), Lookup::Found { material, .. } if material.is(property)))
}

/// `hypo, crystals: 200`: a number alone, of what nobody counts and nothing says how much one is.
pub(super) fn is_bare_number(dose: &Dose) -> bool {
    let counted = dose.amount.dimension == Dimension::Count;
    let alone = !dose.amount.written.text.contains(char::is_alphabetic);
    let poured = match &dose.known {
        Known::Material { material, .. } => {
            material.formula.is_some()
                && !matches!(material.form, Some(Form::Tablet | Form::Fresh | Form::Dried))
        }
        Known::Formula(_) => true,
        _ => false,
    };
    counted && alone && poured && dose.grams(Range::exact(1.0)).is_none()
}
