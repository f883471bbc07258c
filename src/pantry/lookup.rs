//! What a name turns out to mean.

use super::formula::{Formula, FormulaError};
use super::material::Material;
use super::strength::Strength;

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
    Formula(Formula),
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
