//! What a name turns out to mean: a kitchen or darkroom name, a formula, either with a form or a strength beside it.

use std::sync::Arc;

use super::fold;
use super::form::Form;
use super::formula::{Formula, FormulaError};
use super::material::Material;
use super::names::Target;
use super::store::Pantry;
use super::strength::{self, Strength};

/// The answer to "what is this?".
#[derive(Debug, Clone)]
pub enum Lookup<'a> {
    /// One material, with the strength that was written beside its name.
    ///
    /// A formula or a laboratory sign means the pure substance: [`Strength::PURE`] unless another was written.
    Found {
        /// The material.
        material: &'a Material,
        /// The strength, if one was written.
        strength: Option<Strength>,
    },
    /// A material that exists in several forms, and the name does not say which.
    NeedsForm {
        /// What the forms have in common.
        family: &'a str,
        /// The forms.
        forms: Vec<&'a Material>,
    },
    /// A word that people use for several materials.
    Ambiguous(Vec<&'a Material>),
    /// A well-formed formula of a substance that is not in the pantry.
    Formula {
        /// The formula.
        formula: Formula,
        /// The strength: [`Strength::PURE`] unless another was written.
        strength: Strength,
    },
    /// What looks like a formula with a slip in it.
    Malformed(FormulaError),
    /// Nothing known.
    Unknown {
        /// The known name that is most like it, if one is.
        nearest: Option<String>,
    },
}

impl<'a> Lookup<'a> {
    /// The material, if exactly one was found.
    pub fn material(&self) -> Option<&'a Material> {
        match self {
            Self::Found { material, .. } => Some(material),
            _ => None,
        }
    }
}

impl Pantry {
    /// What `name` means: a kitchen or darkroom name in English, German or French, or a formula.
    ///
    /// Case, accents, hyphens, plurals and word order do not matter; a form or a strength may stand before or behind
    /// the name.
    pub fn look_up(&self, name: &str) -> Lookup<'_> {
        self.meaning(name).unwrap_or_else(|| {
            let bare = strength::split(name).map_or_else(|| name.to_owned(), |(bare, _)| bare);
            Lookup::Unknown {
                nearest: self.names.nearest(&bare),
            }
        })
    }

    /// What `name` means; nothing where it is not known, without a search for what is most like it.
    pub(super) fn meaning(&self, name: &str) -> Option<Lookup<'_>> {
        if let Some(target) = self.names.get(name) {
            return Some(self.answer(target, None));
        }
        let (bare, strength) = match strength::split(name) {
            Some((bare, strength)) => (bare, Some(strength)),
            None => (name.to_owned(), None),
        };
        if let Some(target) = self.names.get(&bare) {
            return Some(self.answer(target, strength));
        }
        let formula = bare.trim_end_matches([' ', ',', '(', ')']);
        match Formula::parse(&bare).or_else(|error| Formula::parse(formula).map_err(|_| error)) {
            Ok(formula) => return Some(self.answer_formula(formula, strength)),
            // With a strength taken out, the places in the error would no longer be those in the name.
            Err(error) if error.is_malformed() && strength.is_none() => {
                return Some(Lookup::Malformed(error));
            }
            Err(_) => {}
        }
        if let Some(lookup) = self.look_up_formula_with_form(&bare, strength) {
            return Some(lookup);
        }
        // A loose word for the form says nothing about a material that has only one; nor does the form that it has.
        let (spoken, kept): (Vec<String>, Vec<String>) = fold::words(&bare)
            .into_iter()
            .partition(|word| is_loose(word) || Form::from_spoken(word).is_some());
        if !spoken.is_empty()
            && let Some(Target::Material(at)) = self.names.get_words(&kept)
            && self.materials.get(*at).is_some_and(|material| {
                let fits = |word: &String| is_loose(word) || Form::from_spoken(word) == material.form;
                material.of.is_none() && spoken.iter().all(fits)
            })
        {
            return Some(self.answer(&Target::Material(*at), strength));
        }
        None
    }

    /// What `Na2CO3 (anhydrous)` means: a formula and, behind it, one word for the form.
    fn look_up_formula_with_form(&self, name: &str, strength: Option<Strength>) -> Option<Lookup<'_>> {
        let (first, rest) = name.trim().split_once([' ', ',', '('])?;
        let formula = Formula::parse(first).ok()?;
        let words = fold::words(rest);
        let [word] = words.as_slice() else { return None };
        let form = Form::from_spoken(word)?;
        if form == Form::Powder {
            return Some(self.answer_formula(formula, strength));
        }
        let alike = self.materials().filter(|material| {
            let own = material.formula.as_ref();
            material.form == Some(form) && own.is_some_and(|own| own.elements() == formula.elements())
        });
        let alike: Vec<_> = alike.collect();
        match alike.as_slice() {
            [material] if formula.water() == 0 || material.formula.as_ref() == Some(&formula) => {
                Some(Lookup::Found { material, strength })
            }
            // A substance that is sold in one form only, or a salt without water that is called anhydrous.
            [] if form == Form::Crystals || form == Form::Anhydrous && formula.water() == 0 => {
                Some(self.answer_formula(formula, strength))
            }
            _ => None,
        }
    }

    fn answer(&self, target: &Target, strength: Option<Strength>) -> Lookup<'_> {
        match target {
            Target::Material(at) => match self.materials.get(*at) {
                Some(material) => Lookup::Found { material, strength },
                None => Lookup::Unknown { nearest: None },
            },
            Target::Pure(at) => self.answer(&Target::Material(*at), strength.or(Some(Strength::PURE))),
            Target::Family(id) => Lookup::NeedsForm {
                family: self.family_name(id).unwrap_or_default(),
                forms: self.forms_of(id),
            },
            Target::Ambiguous(word) => Lookup::Ambiguous(self.meanings(word)),
        }
    }

    fn answer_formula(&self, formula: Formula, strength: Option<Strength>) -> Lookup<'_> {
        let strength = strength.or(Some(Strength::PURE));
        let found = self.by_formula.get(&formula).map_or(&[][..], Vec::as_slice);
        let mut materials = found.iter().filter_map(|&at| self.materials.get(at));
        match (materials.next(), found.len()) {
            (Some(material), 1) => Lookup::Found { material, strength },
            (Some(first), _) => {
                let rest = materials.map(Arc::as_ref);
                Lookup::Ambiguous(std::iter::once(first.as_ref()).chain(rest).collect())
            }
            (None, _) => Lookup::Formula {
                formula,
                strength: strength.unwrap_or(Strength::PURE),
            },
        }
    }

    /// The materials that an ambiguous word may mean.
    fn meanings(&self, word: &str) -> Vec<&Material> {
        let Some(ambiguity) = self.ambiguous.get(word) else {
            return Vec::new();
        };
        let means = ambiguity.means.iter();
        means
            .flat_map(|id| match self.get(id) {
                Some(material) => vec![material],
                None => self.forms_of(id),
            })
            .collect()
    }
}

/// Whether a folded word for a form says nothing of a material that is sold in only one.
fn is_loose(word: &str) -> bool {
    let form = Form::from_spoken(word);
    let shape = ["flake", "granule", "pellet", "bead", "pure", "rein", "pur"];
    matches!(
        form,
        Some(Form::Powder | Form::Crystals | Form::Liquid | Form::Tablet)
    ) || shape.contains(&word)
}
