//! What is in the cupboard: materials under their kitchen and darkroom names, their formulas, contents and hazards, and
//! the source of every figure.
//!
//! The data stand in YAML files beside this one; [`Pantry::standard`] holds them, [`Pantry::with`] lays a notebook's own
//! materials over them. Rules read a material's formula and [`Properties`], never its name;
//! [`properties_of_formula`] tells them for a substance that has no name here.
//!
//! Adding a material is a row in `data/materials/`; adding a source is a row in `data/sources.yaml`.

mod bibliography;
mod element;
mod figure;
mod fold;
mod form;
mod formula;
mod formula_text;
mod load;
mod lookup;
mod material;
mod names;
mod overlay;
mod property;
mod recognise;
mod store;
mod strength;

pub use bibliography::{NOTEBOOK_SOURCE, Source, SourceKind};
pub use element::Element;
pub use figure::{Figure, Status};
pub use form::Form;
pub use formula::{Formula, FormulaError, FormulaFault};
pub use load::LoadError;
pub use lookup::Lookup;
pub use material::{Basis, Material, Share, Solubility};
pub use property::{Properties, Property};
pub use recognise::properties_of_formula;
pub use store::Pantry;
pub use strength::{PercentBasis, Strength};
