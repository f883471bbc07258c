//! What a recipe really holds: `based on` filled in, every material looked up, every amount as grams or litres.
//!
//! Facts and rules read baths, not recipes: a rule that asks for a thiosulfate finds it under any name or formula.

use crate::notebook::{Addition, Batch, Block, Figure, Notebook, Part, Recipe, Role, Slot, Swap};
use crate::pantry::{
    Form, Formula, FormulaError, Lookup, Material, Pantry, PercentBasis, Properties, Property, Strength,
    properties_of_formula,
};
use crate::scale::water::{DRIED_KEEPS, FRESH_KEEPS};
use crate::source::{Span, Spanned};
use crate::units::{Dimension, Range};

/// A recipe as it is mixed.
#[derive(Debug, Clone)]
pub struct Bath {
    /// The recipe's id.
    pub id: String,
    /// The recipe with everything that `based on` supplies.
    pub recipe: Recipe,
    /// Every material, in order of writing, parts first to last.
    pub doses: Vec<Dose>,
    /// Whether all of it could be read. Nothing may be concluded from what an incomplete bath lacks.
    pub complete: bool,
}

/// A material in a bath.
#[derive(Debug, Clone)]
pub struct Dose {
    /// The part it goes into; none in a bath of one part.
    pub part: Option<String>,
    /// The material as written.
    pub name: Spanned<String>,
    /// How much, as written.
    pub amount: Figure,
    /// What the name turned out to mean.
    pub known: Known,
}

/// What a material's name turned out to mean.
#[derive(Debug, Clone)]
pub enum Known {
    /// One material of the pantry, with the strength written beside its name or given by the shelf.
    Material {
        /// The material.
        material: Box<Material>,
        /// Its strength.
        strength: Option<Strength>,
    },
    /// A substance given by its formula alone.
    Formula(Formula),
    /// A material whose form was not said.
    NeedsForm {
        /// What the forms have in common.
        family: String,
        /// The forms' names.
        forms: Vec<String>,
        /// What all the forms are.
        properties: Properties,
    },
    /// A word that is used for several materials.
    Ambiguous {
        /// Their names.
        names: Vec<String>,
        /// What any of them is.
        properties: Properties,
    },
    /// Nothing known.
    Unknown {
        /// The known name that is most like it.
        nearest: Option<String>,
        /// What is wrong with it, where it looks like a formula.
        malformed: Option<FormulaError>,
    },
}

impl Dose {
    /// What the material is to a darkroom.
    pub fn properties(&self) -> Properties {
        match &self.known {
            Known::Material { material, .. } => material.properties,
            Known::Formula(formula) => properties_of_formula(formula),
            Known::NeedsForm { properties, .. } | Known::Ambiguous { properties, .. } => *properties,
            Known::Unknown { .. } => Properties::NONE,
        }
    }

    /// Whether it has a property.
    pub fn is(&self, property: Property) -> bool {
        self.properties().contains(property)
    }

    /// The material, where it is exactly one.
    pub fn material(&self) -> Option<&Material> {
        match &self.known {
            Known::Material { material, .. } => Some(material),
            _ => None,
        }
    }

    /// The formula, where it is one substance.
    pub fn formula(&self) -> Option<&Formula> {
        match &self.known {
            Known::Material { material, .. } => material.formula.as_ref(),
            Known::Formula(formula) => Some(formula),
            _ => None,
        }
    }

    /// Grams of the material as it is weighed, for a bath of `litres`; none where what was written cannot be weighed.
    pub fn grams(&self, litres: Range) -> Option<Range> {
        let amount = &self.amount.amount;
        match amount.dimension {
            Dimension::Mass => Some(amount.range),
            Dimension::AmountOfSubstance => Some(amount.range.scale(self.formula()?.molar_mass())),
            Dimension::MassConcentration => Some(amount.range * litres),
            Dimension::Molarity => Some((amount.range * litres).scale(self.formula()?.molar_mass())),
            Dimension::Volume => {
                let material = self.material()?;
                let millilitres = amount.range.scale(1000.0);
                let density = material
                    .density
                    .as_ref()
                    .map(|density| Range::new(density.low(), density.best(), density.high()));
                let spoon = material
                    .spoon
                    .as_ref()
                    .map(|spoon| Range::new(spoon.low() / 5.0, spoon.best() / 5.0, spoon.high() / 5.0));
                Some(millilitres * density.or(spoon)?)
            }
            Dimension::Count => {
                let each = amount
                    .each
                    .as_ref()
                    .map(|each| each.range.scale(amount.range.best));
                each.or_else(|| {
                    let active = self.material()?.tablet_active.as_ref()?;
                    Some(Range::new(active.low(), active.best(), active.high()).scale(amount.range.best))
                })
            }
            _ => None,
        }
    }

    /// Millilitres of water that it keeps back when it is strained, for a bath of `litres`: as the pantry knows it, else as
    /// leaves of its form do.
    pub fn keeps_back(&self, litres: Range) -> Option<Range> {
        let material = self.material()?;
        let each = match (&material.keeps_back, material.form) {
            (Some(known), _) => Range::new(known.low(), known.best(), known.high()),
            (None, _) if !self.is(Property::Plant) => return None,
            (None, Some(Form::Dried)) => DRIED_KEEPS,
            (None, Some(Form::Fresh)) => FRESH_KEEPS,
            (None, _) => return None,
        };
        Some(self.grams(litres)? * each)
    }

    /// Moles of its formula, for a bath of `litres`.
    pub fn moles(&self, litres: Range) -> Option<Range> {
        let molar_mass = self.formula()?.molar_mass();
        self.grams(litres).map(|grams| grams.scale(1.0 / molar_mass))
    }

    /// The strength written beside the name, in grams per litre where its basis is by volume of solution.
    pub fn strength_grams_per_litre(&self) -> Option<Range> {
        let Known::Material {
            strength: Some(strength),
            ..
        } = &self.known
        else {
            return None;
        };
        match strength.basis {
            // A bare percentage of vinegar is grams in 100 ml on labels: FDA CPG Sec. 525.825 words it so.
            None | Some(PercentBasis::MassByVolume) => {
                Some(Range::between(strength.low * 10.0, strength.high * 10.0))
            }
            Some(_) => None,
        }
    }
}

impl Bath {
    /// What the bath is for.
    pub fn role(&self) -> Option<Role> {
        self.recipe
            .role
            .get()
            .and_then(|role| Role::from_word(role.value))
    }

    /// Where the role was written, else `fallback`.
    pub fn role_span(&self, fallback: Span) -> Span {
        self.recipe.role.get().map_or(fallback, |role| role.span)
    }

    /// The finished volume in litres.
    pub fn litres(&self) -> Option<Range> {
        self.recipe.makes.get().map(|makes| makes.range)
    }

    /// The first material with a property.
    pub fn first(&self, property: Property) -> Option<&Dose> {
        self.doses.iter().find(|dose| dose.is(property))
    }

    /// Every material with a property.
    pub fn all(&self, property: Property) -> impl Iterator<Item = &Dose> {
        self.doses.iter().filter(move |dose| dose.is(property))
    }

    /// Whether it holds an acid in its own right: vitamin C is one, but is there for what it gives to silver.
    pub fn acid(&self) -> Option<&Dose> {
        self.doses
            .iter()
            .find(|dose| dose.is(Property::Acid) && !dose.is(Property::Ascorbate))
    }
}

/// Finds the recipe that another is based on.
pub(super) type Bases<'n, 'f> = dyn Fn(&str) -> Option<(&'n Block, &'n Recipe)> + 'f;

/// A recipe as it is mixed, with what `bases` have of it.
pub(super) fn bath<'n>(
    notebook: &Notebook,
    bases: &Bases<'n, '_>,
    block: &'n Block,
    recipe: &Recipe,
) -> Bath {
    let mut seen = vec![block.id.as_str()];
    let recipe = merged(bases, recipe, &mut seen);
    let mut doses = Vec::new();
    for addition in &recipe.add {
        doses.push(dose(notebook, None, addition));
    }
    for part in &recipe.parts {
        let name = part.name.get().map(|name| name.value.clone());
        for addition in &part.add {
            doses.push(dose(notebook, name.clone(), addition));
        }
    }
    let complete = !recipe.incomplete && !block.broken;
    Bath {
        id: block.id.clone(),
        recipe,
        doses,
        complete,
    }
}

fn dose(notebook: &Notebook, part: Option<String>, addition: &Addition) -> Dose {
    let name = addition.material.clone();
    let known = known_as_counted(notebook, &addition.amount, known(notebook, &name.value));
    Dose {
        part,
        name,
        amount: addition.amount.clone(),
        known,
    }
}

/// `vitamin C: 6 × 500 mg tablets` says with its amount which of the things called vitamin C it means.
fn known_as_counted(notebook: &Notebook, amount: &Figure, known: Known) -> Known {
    let Known::Ambiguous { names, .. } = &known else {
        return known;
    };
    let tablets = amount.dimension == Dimension::Count || amount.each.is_some();
    let plain = |material: &&Material| {
        material.form == Some(Form::Tablet)
            && !material.is(Property::Effervescent)
            && !material.is(Property::Sugar)
    };
    let found = names
        .iter()
        .filter_map(|name| notebook.pantry.look_up(name).material());
    let found: Vec<&Material> = found.filter(plain).collect();
    match found.as_slice() {
        [material] if tablets => Known::Material {
            material: Box::new((*material).clone()),
            strength: None,
        },
        _ => known,
    }
}

/// What a name means in this notebook; a strength that only the shelf states counts too.
pub fn known(notebook: &Notebook, name: &str) -> Known {
    let pantry: &Pantry = &notebook.pantry;
    match pantry.look_up(name) {
        Lookup::Found { material, strength } => Known::Material {
            material: Box::new(material.clone()),
            strength: strength.or_else(|| shelf_strength(notebook, material)),
        },
        Lookup::Formula(formula) => Known::Formula(formula),
        Lookup::NeedsForm { family, forms } => Known::NeedsForm {
            family: family.to_owned(),
            properties: common(&forms),
            forms: forms.iter().map(|form| form.name.clone()).collect(),
        },
        Lookup::Ambiguous(materials) => Known::Ambiguous {
            properties: common(&materials),
            names: materials.iter().map(|material| material.name.clone()).collect(),
        },
        Lookup::Malformed(error) => Known::Unknown {
            nearest: None,
            malformed: Some(error),
        },
        Lookup::Unknown { nearest } => Known::Unknown {
            nearest,
            malformed: None,
        },
    }
}

/// What all of several materials are.
fn common(materials: &[&Material]) -> Properties {
    let mut common = Properties::NONE;
    let Some((first, rest)) = materials.split_first() else {
        return common;
    };
    for property in first.properties.iter() {
        if rest.iter().all(|material| material.is(property)) {
            common.insert(property);
        }
    }
    common
}

/// The strength of the one packet on the shelf that is this material.
fn shelf_strength(notebook: &Notebook, material: &Material) -> Option<Strength> {
    let on_shelf = notebook.packets.on_shelf(&material.id).iter();
    let mut found = on_shelf.filter_map(|&at| {
        let (_, strength) = notebook.packets.material(at)?;
        let packet = notebook.settings.shelf.get(at)?;
        let written = packet.strength.get().and_then(|figure| {
            let percent = |factor: f64, basis| Strength {
                low: figure.range.low * factor,
                high: figure.range.high * factor,
                basis,
            };
            match figure.dimension {
                Dimension::MassConcentration => Some(percent(0.1, Some(PercentBasis::MassByVolume))),
                Dimension::MassFraction => Some(percent(100.0, Some(PercentBasis::ByMass))),
                Dimension::VolumeFraction => Some(percent(100.0, Some(PercentBasis::ByVolume))),
                Dimension::Share => Some(percent(100.0, None)),
                _ => None,
            }
        });
        written.or(strength)
    });
    let first = found.next()?;
    found.next().is_none().then_some(first)
}

/// A recipe with what its `based on` supplies: whole values key by key, materials and parts by name.
fn merged<'n>(bases: &Bases<'n, '_>, recipe: &Recipe, seen: &mut Vec<&'n str>) -> Recipe {
    let mut own = recipe.clone();
    let Some(base_id) = recipe.based_on.get() else {
        own.incomplete |= recipe.based_on.is_broken();
        return own;
    };
    let Some((block, base)) = bases(&base_id.value) else {
        own.incomplete = true;
        return own;
    };
    if seen.contains(&block.id.as_str()) {
        // A circle has no beginning to be based on; the rule that says so reads the recipes themselves.
        own.incomplete = true;
        return own;
    }
    seen.push(&block.id);
    let base = merged(bases, base, seen);
    own.role = or(own.role, base.role);
    own.makes = or(own.makes, base.makes);
    own.water = or(own.water, base.water);
    own.gas = or(own.gas, base.gas);
    own.waste = or(own.waste, base.waste);
    own.from = or(own.from, base.from);
    own.add = merged_additions(own.add, &base.add);
    own.parts = merged_parts(own.parts, &base.parts);
    if own.steps.is_empty() {
        own.steps = base.steps;
    }
    if own.cautions.is_empty() {
        own.cautions = base.cautions;
    }
    if own.expect.is_empty() {
        own.expect = base.expect;
    }
    if own.keeps.is_absent() {
        own.keeps = base.keeps;
    }
    let usage = own.usage;
    own.usage = crate::notebook::Usage {
        temperature: or(usage.temperature, base.usage.temperature),
        time: or(usage.time, base.usage.time),
        agitation: or(usage.agitation, base.usage.agitation),
        dilution: or(usage.dilution, base.usage.dilution),
        capacity: or(usage.capacity, base.usage.capacity),
        at: or(usage.at, base.usage.at),
        support: or(usage.support, base.usage.support),
        see: or(usage.see, base.usage.see),
        factor: or(usage.factor, base.usage.factor),
    };
    own.incomplete |= base.incomplete;
    own
}

fn or<T>(own: Slot<T>, base: Slot<T>) -> Slot<T> {
    if own.is_absent() { base } else { own }
}

/// The base's order, with this recipe's amounts; new materials at the end. An amount of zero leaves one out.
fn merged_additions(own: Vec<Addition>, base: &[Addition]) -> Vec<Addition> {
    let mut merged: Vec<Addition> = base.to_vec();
    for addition in own {
        let same = merged
            .iter_mut()
            .find(|held| held.material.value == addition.material.value);
        match same {
            Some(held) => *held = addition,
            None => merged.push(addition),
        }
    }
    merged.retain(|addition| addition.amount.range.high > 0.0);
    merged
}

fn merged_parts(own: Vec<Part>, base: &[Part]) -> Vec<Part> {
    let name = |part: &Part| part.name.get().map(|name| name.value.clone());
    let mut merged: Vec<Part> = base.to_vec();
    for part in own {
        let same = merged.iter_mut().find(|held| name(held) == name(&part));
        match same {
            Some(held) => {
                held.add = merged_additions(part.add, &held.add);
                held.water = or(part.water, held.water.clone());
                held.makes = or(part.makes, held.makes.clone());
                held.span = part.span;
                if !part.steps.is_empty() {
                    held.steps = part.steps;
                }
            }
            None => merged.push(part),
        }
    }
    merged
}

/// A recipe's bath with what a batch took instead. A material that the recipe does not have comes on top.
pub fn swapped(notebook: &Notebook, bath: &Bath, batch: &Batch) -> Bath {
    let mut bath = bath.clone();
    for swap in &batch.swaps {
        match swap {
            Swap::Amount(addition) => with_amount(notebook, &mut bath, addition),
            Swap::Material { from, to } => {
                let name = &from.value;
                if let Some(dose) = bath.doses.iter_mut().find(|dose| dose.name.value == *name) {
                    dose.known = known(notebook, &to.value);
                    dose.name = to.clone();
                }
            }
        }
    }
    bath
}

fn with_amount(notebook: &Notebook, bath: &mut Bath, addition: &Addition) {
    let name = &addition.material.value;
    match bath.doses.iter_mut().find(|dose| dose.name.value == *name) {
        Some(dose) => {
            dose.amount = addition.amount.clone();
            dose.name = addition.material.clone();
        }
        None => bath.doses.push(Dose {
            part: None,
            name: addition.material.clone(),
            amount: addition.amount.clone(),
            known: known(notebook, name),
        }),
    }
}
