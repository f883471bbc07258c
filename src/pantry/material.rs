//! One material: a packet on the shelf, a plant, or a pure substance.

use std::collections::BTreeMap;

use super::bibliography::NOTEBOOK_SOURCE;
use super::figure::Figure;
use super::form::Form;
use super::formula::Formula;
use super::property::{Properties, Property};
use super::recognise::properties_of_formula;

/// In what a share is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Basis {
    /// Grams in a litre of the material.
    GramsPerLitre,
    /// Part of the material's mass, from 0 to 1.
    MassFraction,
}

/// How much of another material a material holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Share {
    /// The id or name of what it holds.
    pub material: String,
    /// How much, counted as `basis` says.
    pub amount: Figure,
    /// In what the amount is counted.
    pub basis: Basis,
    /// The amount is a sum of many substances, expressed as the mass of this one.
    pub equivalents: bool,
    /// The part of it that passes into hot water, from 0 to 1; `None` for what dissolves whole.
    pub extracted: Option<Figure>,
}

/// How much of a material dissolves at one temperature.
#[derive(Debug, Clone, PartialEq)]
pub struct Solubility {
    /// Temperature in °C.
    pub celsius: f64,
    /// Grams that dissolve in a kilogram of water, of the material as its formula says.
    pub grams_per_kilogram: Figure,
}

/// A material and what is known of it.
///
/// [`Material::new`] makes one of which nothing is known but the name; set the fields that are, then call
/// [`Material::with_derived_properties`].
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// Slug by which facts and blocks name it.
    pub id: String,
    /// English name.
    pub name: String,
    /// Further names by language tag (`en`, `de`, `fr`).
    pub also: BTreeMap<String, Vec<String>>,
    /// Signs that laboratory tables use for it, such as `H2Asc`.
    pub symbols: Vec<String>,
    /// What it consists of, if it is a pure substance.
    pub formula: Option<Formula>,
    /// What it holds, if it is a mixture or a plant.
    pub contains: Vec<Share>,
    /// Which form it is, if the material exists in several.
    pub form: Option<Form>,
    /// The id of the family of which it is a form.
    pub of: Option<String>,
    /// Part of its mass that is what the formula says, from 0 to 1.
    pub purity: Option<Figure>,
    /// Density in g/ml at 20 °C; of liquids.
    pub density: Option<Figure>,
    /// Grams in a level spoon of 5 ml.
    pub spoon: Option<Figure>,
    /// Part of a tablet's mass that is the active substance, from 0 to 1.
    pub tablet_share: Option<Figure>,
    /// Grams of active substance in one tablet, as its label says.
    pub tablet_active: Option<Figure>,
    /// How much dissolves, by rising temperature.
    pub solubility: Vec<Solubility>,
    /// Electrons that one molecule gives to silver.
    pub electrons: Option<Figure>,
    /// Millilitres of water that one gram keeps back when strained.
    pub keeps_back: Option<Figure>,
    /// GHS hazard statements by code, such as `H319`.
    pub hazards: Vec<String>,
    /// The bibliography key for `hazards`.
    pub hazards_source: Option<String>,
    /// What it is to a darkroom.
    pub properties: Properties,
    /// Whether its strength differs so much between packets that it must be written.
    pub needs_strength: bool,
    /// What a reader should know before using it.
    pub note: Option<String>,
    /// The bibliography keys for the material as a whole; never empty.
    pub sources: Vec<String>,
}

impl Material {
    /// A substance of which nothing is known but the formula that a notebook wrote.
    pub fn of_formula(formula: Formula) -> Self {
        let name = formula.as_str().to_owned();
        let mut material = Self::new(name.clone(), name, NOTEBOOK_SOURCE);
        material.properties = properties_of_formula(&formula);
        material.formula = Some(formula);
        material
    }

    /// A material of which nothing is known but its name and where that comes from.
    pub fn new(id: impl Into<String>, name: impl Into<String>, source: impl Into<String>) -> Self {
        Self {
            id: id.into(),
            name: name.into(),
            also: BTreeMap::new(),
            symbols: Vec::new(),
            formula: None,
            contains: Vec::new(),
            form: None,
            of: None,
            purity: None,
            density: None,
            spoon: None,
            tablet_share: None,
            tablet_active: None,
            solubility: Vec::new(),
            electrons: None,
            keeps_back: None,
            hazards: Vec::new(),
            hazards_source: None,
            properties: Properties::NONE,
            needs_strength: false,
            note: None,
            sources: vec![source.into()],
        }
    }

    /// Whether it has `property`.
    pub fn is(&self, property: Property) -> bool {
        self.properties.contains(property)
    }

    /// Molar mass in g/mol, with the water of crystallisation, if the formula is known.
    pub fn molar_mass(&self) -> Option<f64> {
        self.formula.as_ref().map(Formula::molar_mass)
    }

    /// Adds the properties that follow from the formula.
    #[must_use]
    pub fn with_derived_properties(mut self) -> Self {
        if let Some(formula) = &self.formula {
            self.properties = self.properties.union(properties_of_formula(formula));
        }
        self
    }

    /// The bibliography keys of everything that is said about it, repetitions included.
    pub fn cited(&self) -> impl Iterator<Item = &str> {
        let figures = [
            &self.purity,
            &self.density,
            &self.spoon,
            &self.tablet_share,
            &self.tablet_active,
            &self.electrons,
            &self.keeps_back,
        ];
        let shares = self.contains.iter();
        let of_shares = shares.flat_map(|share| [Some(&share.amount), share.extracted.as_ref()]);
        let of_solubility = self.solubility.iter().map(|point| &point.grams_per_kilogram);
        figures
            .into_iter()
            .filter_map(Option::as_ref)
            .chain(of_shares.flatten())
            .chain(of_solubility)
            .map(Figure::source)
            .chain(self.sources.iter().map(String::as_str))
            .chain(self.hazards_source.as_deref())
    }

    /// Whether both are given as pure substances or mixtures that cannot be the same thing.
    pub fn contradicts(&self, base: &Self) -> bool {
        match (&self.formula, &base.formula) {
            (Some(own), Some(other)) => own != other,
            (None, Some(_)) => !self.contains.is_empty(),
            _ => false,
        }
    }

    /// Fills what is not known of this material with what any packet of `substance` has, which is of the same formula:
    /// not its purity, nor what a spoon of it weighs.
    #[must_use]
    pub fn as_substance(mut self, substance: &Self) -> Self {
        if self.of.is_none() && (self.form.is_none() || self.form == substance.form) {
            self.form = substance.form;
            self.of.clone_from(&substance.of);
        }
        if self.solubility.is_empty() {
            self.solubility.clone_from(&substance.solubility);
        }
        if self.electrons.is_none() {
            self.electrons.clone_from(&substance.electrons);
        }
        if self.hazards.is_empty() {
            self.hazards.clone_from(&substance.hazards);
            self.hazards_source.clone_from(&substance.hazards_source);
        }
        self.properties = self.properties.union(substance.properties);
        self
    }

    /// Fills what is not known of this material with what is known of `base`, names apart.
    ///
    /// Where the two contradict each other nothing is taken over, so that a packet with a wrong name does not inherit
    /// what it is not.
    #[must_use]
    pub fn over(mut self, base: &Self) -> Self {
        if self.contradicts(base) {
            return self.with_derived_properties();
        }
        let base = base.clone();
        self.formula = self.formula.or(base.formula);
        if self.contains.is_empty() {
            self.contains = base.contains;
        }
        self.form = self.form.or(base.form);
        self.of = self.of.or(base.of);
        self.purity = self.purity.or(base.purity);
        self.density = self.density.or(base.density);
        self.spoon = self.spoon.or(base.spoon);
        self.tablet_share = self.tablet_share.or(base.tablet_share);
        self.tablet_active = self.tablet_active.or(base.tablet_active);
        if self.solubility.is_empty() {
            self.solubility = base.solubility;
        }
        self.electrons = self.electrons.or(base.electrons);
        self.keeps_back = self.keeps_back.or(base.keeps_back);
        if self.hazards.is_empty() {
            self.hazards = base.hazards;
            self.hazards_source = base.hazards_source;
        }
        self.properties = self.properties.union(base.properties);
        self.needs_strength |= base.needs_strength;
        self.note = self.note.or(base.note);
        for source in base.sources {
            if !self.sources.contains(&source) {
                self.sources.push(source);
            }
        }
        self.with_derived_properties()
    }
}
