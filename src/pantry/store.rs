//! The pantry itself: every material, with its names, its formula and its sources.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use super::bibliography::{Bibliography, Source, Statements};
use super::element::Element;
use super::form;
use super::formula::Formula;
use super::load::{self, Ambiguity, Family, LoadError};
use super::material::Material;
use super::names::{Names, Target};
use super::property::Properties;
use super::recognise::{anions_source, properties_by_share, properties_of_formula};
use crate::units::Language;

const SOURCES: &str = include_str!("data/sources.yaml");
const HAZARDS: &str = include_str!("data/hazards.yaml");
const MATERIALS: &[(&str, &str)] = &[
    ("alkalis.yaml", include_str!("data/materials/alkalis.yaml")),
    ("acids.yaml", include_str!("data/materials/acids.yaml")),
    ("agents.yaml", include_str!("data/materials/agents.yaml")),
    ("salts.yaml", include_str!("data/materials/salts.yaml")),
    ("plants.yaml", include_str!("data/materials/plants.yaml")),
    ("household.yaml", include_str!("data/materials/household.yaml")),
    ("words.yaml", include_str!("data/materials/words.yaml")),
];

/// Materials by name, by id and by formula, with the sources of everything said about them.
#[derive(Debug, Clone)]
pub struct Pantry {
    pub(super) materials: Vec<Arc<Material>>,
    pub(super) by_id: BTreeMap<String, usize>,
    pub(super) by_formula: BTreeMap<Formula, Vec<usize>>,
    pub(super) names: Names,
    families: Arc<BTreeMap<String, Family>>,
    pub(super) ambiguous: Arc<BTreeMap<String, Ambiguity>>,
    sources: Arc<Bibliography>,
    statements: Arc<Statements>,
}

impl Pantry {
    /// The materials that every notebook starts with.
    pub fn standard() -> &'static Self {
        Self::held()
    }

    /// The same, shared: for a notebook that adds nothing of its own.
    pub fn shared() -> Arc<Self> {
        Arc::clone(Self::held())
    }

    fn held() -> &'static Arc<Self> {
        static STANDARD: OnceLock<Arc<Pantry>> = OnceLock::new();
        STANDARD.get_or_init(|| match Self::from_yaml(SOURCES, HAZARDS, MATERIALS) {
            Ok(pantry) => Arc::new(pantry),
            #[expect(
                clippy::panic,
                reason = "the texts are part of the program; no notebook can reach this"
            )]
            Err(error) => panic!("the built-in pantry is broken: {error}"),
        })
    }

    /// Reads a pantry from the texts of its bibliography, its hazard statements and its named files of materials.
    ///
    /// Refused are rows without a source, sources that are not in the bibliography, unknown keys, properties, forms and
    /// hazard statements, ranges out of order, broken formulas, and names that stand for two things.
    pub fn from_yaml(sources: &str, hazards: &str, materials: &[(&str, &str)]) -> Result<Self, LoadError> {
        let sources: Bibliography = load::yaml("sources", sources)?;
        let statements: Statements = load::yaml("hazards", hazards)?;
        if !sources.contains_key(&statements.source) {
            return Err(LoadError::new("the hazard statements have no source"));
        }
        let stock = load::stock(materials, &sources, &statements)?;
        let mut pantry = Self {
            materials: Vec::new(),
            by_id: BTreeMap::new(),
            by_formula: BTreeMap::new(),
            names: Names::default(),
            families: Arc::new(stock.families),
            ambiguous: Arc::new(stock.ambiguous),
            sources: Arc::new(sources),
            statements: Arc::new(statements),
        };
        for material in stock.materials {
            let id = material.id.clone();
            let at = pantry.materials.len();
            if pantry.by_id.insert(id.clone(), at).is_some() {
                return Err(LoadError::new(format!("material `{id}` stands twice")));
            }
            if let Some(formula) = &material.formula {
                pantry.by_formula.entry(formula.clone()).or_default().push(at);
            }
            pantry.materials.push(Arc::new(material));
        }
        pantry.enter_names()?;
        pantry.check_references()?;
        pantry.derive_from_contents();
        Ok(pantry)
    }

    fn enter_names(&mut self) -> Result<(), LoadError> {
        for (word, ambiguity) in self.ambiguous.iter() {
            let target = Target::Ambiguous(word.clone());
            self.names.enter(word, &target)?;
            for name in &ambiguity.also {
                self.names.enter(name, &target)?;
            }
        }
        for (id, family) in self.families.iter() {
            let target = Target::Family(id.clone());
            for name in family_names(family) {
                self.names.enter(name, &target)?;
            }
        }
        for (at, material) in self.materials.iter().enumerate() {
            for name in material_names(material) {
                self.names.enter(name, &Target::Material(at))?;
            }
            for sign in &material.symbols {
                self.names.enter(sign, &Target::Pure(at))?;
            }
        }
        // After all names, because a name wins over a family's name with a word for the form.
        for (at, material) in self.materials.iter().enumerate() {
            if let (Some(of), Some(form)) = (&material.of, material.form) {
                let family = self.families.get(of).ok_or_else(|| {
                    LoadError::new(format!("`{}` is of `{of}`, which is no family", material.id))
                })?;
                for name in family_names(family) {
                    let water = material.formula.as_ref().map_or(0, Formula::water);
                    for word in form.spoken().iter().chain(form::hydrate_words(water)) {
                        self.names.enter_with(name, word, &Target::Material(at));
                    }
                }
            }
        }
        Ok(())
    }

    fn check_references(&self) -> Result<(), LoadError> {
        for material in &self.materials {
            for share in &material.contains {
                if !self.by_id.contains_key(&share.material) {
                    return Err(LoadError::new(format!(
                        "`{}` contains `{}`, which is no material",
                        material.id, share.material
                    )));
                }
            }
        }
        for (word, ambiguity) in self.ambiguous.iter() {
            for id in &ambiguity.means {
                if !self.by_id.contains_key(id) && !self.families.contains_key(id) {
                    return Err(LoadError::new(format!(
                        "`{word}` may mean `{id}`, which is no material"
                    )));
                }
            }
        }
        Ok(())
    }

    /// Gives every mixture the properties of what it holds.
    fn derive_from_contents(&mut self) {
        let derived: Vec<_> = self
            .materials()
            .map(|material| self.held_properties(material))
            .collect();
        for (material, properties) in self.materials.iter_mut().zip(derived) {
            let all = material.properties.union(properties);
            if all != material.properties {
                Arc::make_mut(material).properties = all;
            }
        }
    }

    /// The properties that `material` has because of what it holds.
    pub(super) fn held_properties(&self, material: &Material) -> Properties {
        let shares = material.contains.iter().filter_map(|share| {
            let by_id = self.get(&share.material);
            let held = by_id.or_else(|| self.meaning(&share.material)?.material());
            if let Some(held) = held {
                return Some(properties_by_share(share, held.properties));
            }
            let formula = Formula::parse(&share.material).ok()?;
            Some(properties_by_share(share, properties_of_formula(&formula)))
        });
        shares.fold(Properties::NONE, Properties::union)
    }

    /// The material with this id.
    pub fn get(&self, id: &str) -> Option<&Material> {
        let at = *self.by_id.get(id)?;
        self.materials.get(at).map(Arc::as_ref)
    }

    /// Every material: the standard ones by file and id, then the notebook's own.
    pub fn materials(&self) -> impl Iterator<Item = &Material> {
        self.materials.iter().map(Arc::as_ref)
    }

    /// The forms of the family with this id, such as `washing-soda`.
    pub fn forms_of(&self, family: &str) -> Vec<&Material> {
        let all = self.materials();
        all.filter(|material| material.of.as_deref() == Some(family))
            .collect()
    }

    /// The id and English name of every material that exists in several forms.
    pub fn families(&self) -> impl Iterator<Item = (&str, &str)> {
        let all = self.families.iter();
        all.map(|(id, family)| (id.as_str(), family.name.as_str()))
    }

    /// The English name of the family with this id.
    pub fn family_name(&self, family: &str) -> Option<&str> {
        self.families.get(family).map(|family| family.name.as_str())
    }

    /// The name of the family with this id in a language; in English where it has none there.
    pub fn family_name_in(&self, family: &str, language: Language) -> Option<&str> {
        let family = self.families.get(family)?;
        let own = family
            .also
            .get(language.code())
            .filter(|_| language != Language::English);
        Some(own.and_then(|names| names.first()).unwrap_or(&family.name))
    }

    /// The materials with exactly this composition, water of crystallisation included.
    pub fn with_formula(&self, formula: &Formula) -> Vec<&Material> {
        let found = self.by_formula.get(formula).map_or(&[][..], Vec::as_slice);
        found
            .iter()
            .filter_map(|&at| self.materials.get(at))
            .map(Arc::as_ref)
            .collect()
    }

    /// The source with this key.
    pub fn source(&self, key: &str) -> Option<&Source> {
        self.sources.get(key)
    }

    /// Every source with its key.
    pub fn sources(&self) -> impl Iterator<Item = (&str, &Source)> {
        self.sources.iter().map(|(key, source)| (key.as_str(), source))
    }

    /// The text of a hazard statement such as `H319`.
    pub fn hazard(&self, code: &str) -> Option<&str> {
        self.statements.statements.get(code).map(String::as_str)
    }

    /// The bibliography key for the texts of the hazard statements.
    pub fn hazards_source(&self) -> &str {
        &self.statements.source
    }

    /// The keys of every source that a material, a family or a word of the pantry cites, repetitions included.
    pub fn cited(&self) -> impl Iterator<Item = &str> {
        let families = self.families.values().map(|family| family.source.as_str());
        let words = self.ambiguous.values().map(|word| word.source.as_str());
        self.materials()
            .flat_map(Material::cited)
            .chain(families)
            .chain(words)
            .chain([self.hazards_source(), Element::weights_source(), anions_source()])
    }
}

pub(super) fn material_names(material: &Material) -> impl Iterator<Item = &str> {
    let own = [material.name.as_str(), material.id.as_str()].into_iter();
    let also = material.also.values().flatten().map(String::as_str);
    own.chain(also)
}

fn family_names(family: &Family) -> impl Iterator<Item = &str> {
    let also = family.also.values().flatten().map(String::as_str);
    std::iter::once(family.name.as_str()).chain(also)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_built_in_files_load() {
        let pantry = Pantry::from_yaml(SOURCES, HAZARDS, MATERIALS);
        assert!(pantry.is_ok(), "{}", pantry.unwrap_err());
    }
}
