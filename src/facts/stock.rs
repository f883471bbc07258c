//! A recipe that is poured into another: what a litre of it holds, as a material like any other.

use crate::notebook::{Addition, Notebook, Verb, slug};
use crate::pantry::{
    Basis, Figure, Formula, Material, NOTEBOOK_SOURCE, Properties, Property, Share, Status, Strength,
};
use crate::units::{Dimension, Range};

use super::based_on::merged;
use super::dose::{Dose, Known, dose_of_pantry};

/// What a litre of a stock holds.
#[derive(Default)]
struct Held {
    /// Grams of each material.
    shares: Vec<(String, Range)>,
    properties: Properties,
    hazards: Vec<String>,
}

/// The recipe with the id that a material's name is, as a material. None where no recipe has it, or where what a litre
/// of it holds cannot be told: its volume or an amount is not known, plants keep back some of it, it goes into an oven, or it is made of itself.
pub(super) fn stock(notebook: &Notebook, name: &str) -> Option<Material> {
    let id = slug(name);
    let held = held(notebook, &id, &mut Vec::new())?;
    let solids: f64 = held.shares.iter().map(|(_, grams)| grams.best * 1e-3).sum();
    let mut material = Material::new(id, name, NOTEBOOK_SOURCE);
    // What is dissolved takes the room of none to 0.6 ml of water for each gram (from memory, unverified).
    material.density = figure(Range::new(1.0 + 0.4 * solids, 1.0 + 0.7 * solids, 1.0 + solids));
    material.contains = held
        .shares
        .into_iter()
        .map(|(material, grams)| {
            Some(Share {
                material,
                amount: figure(grams)?,
                basis: Basis::GramsPerLitre,
                equivalents: false,
                extracted: None,
            })
        })
        .collect::<Option<_>>()?;
    material.properties = held.properties;
    material.hazards = held.hazards;
    Some(material)
}

fn figure(range: Range) -> Option<Figure> {
    Figure::new(
        range.low,
        range.best,
        range.high,
        Status::Derived,
        NOTEBOOK_SOURCE,
    )
}

/// `seen` are the recipes that are being gone through, so that a circle ends.
fn held<'n>(notebook: &'n Notebook, id: &str, seen: &mut Vec<&'n str>) -> Option<Held> {
    let (block, recipe) = notebook.recipe(id)?;
    if block.broken || seen.contains(&block.id.as_str()) {
        return None;
    }
    seen.push(&block.id);
    let recipe = merged(&|id| notebook.recipe(id), recipe, &mut vec![block.id.as_str()]);
    let litres = recipe.makes.get()?.range;
    // What an oven makes of it is not known.
    if recipe.incomplete || litres.low <= 0.0 || recipe.does(Verb::Bake) {
        return None;
    }
    let mut all = Held::default();
    let parts = recipe.parts.iter().flat_map(|part| &part.add);
    for addition in recipe.add.iter().chain(parts) {
        add(notebook, addition, litres, seen, &mut all)?;
    }
    seen.pop();
    Some(all)
}

fn add<'n>(
    notebook: &'n Notebook,
    addition: &Addition,
    litres: Range,
    seen: &mut Vec<&'n str>,
    all: &mut Held,
) -> Option<()> {
    let dose: Dose = dose_of_pantry(notebook, None, addition);
    if let Known::Unknown { .. } = dose.known {
        let inner = held(notebook, &slug(&dose.name.value), seen)?;
        let poured = match dose.amount.dimension {
            Dimension::Volume => dose.amount.range.checked_div(litres)?,
            Dimension::VolumeFraction => dose.amount.range,
            _ => return None,
        };
        let shares = inner.shares.into_iter();
        all.shares.extend(shares.map(|(id, grams)| (id, grams * poured)));
        all.take(inner.properties, &inner.hazards);
        return Some(());
    }
    if dose.is(Property::Plant) || dose.keeps_back(litres).is_some() {
        return None;
    }
    let id = match &dose.known {
        Known::Material { material, strength } if strength.is_none_or(|found| found == Strength::PURE) => {
            all.hazards.extend(material.hazards.iter().cloned());
            material.id.clone()
        }
        Known::Formula(formula) => Formula::as_str(formula).to_owned(),
        _ => return None,
    };
    all.shares.push((id, dose.grams(litres)?.checked_div(litres)?));
    all.take(dose.properties(), &[]);
    Some(())
}

impl Held {
    fn take(&mut self, properties: Properties, hazards: &[String]) {
        let (had, mut all) = (self.properties, Properties::NONE);
        // Baking soda beside a stronger alkali is not what the stock is.
        let strong = |of: Properties| {
            let alkali = of.contains(Property::Alkali) || of.contains(Property::Caustic);
            alkali && !of.contains(Property::Bicarbonate)
        };
        let outdone = strong(had) || strong(properties);
        for property in had.iter().chain(properties.iter()) {
            if !(outdone && property == Property::Bicarbonate) {
                all.insert(property);
            }
        }
        self.properties = all;
        self.hazards.extend_from_slice(hazards);
        self.hazards.sort();
        self.hazards.dedup();
    }
}
