//! A notebook's own materials laid over those of the pantry.

use std::sync::Arc;

use super::lookup::Lookup;
use super::material::Material;
use super::names::Target;
use super::store::{Pantry, material_names};

impl Pantry {
    /// This pantry with a notebook's own materials laid over it.
    ///
    /// A material whose name or id stands here already corrects that one: what it leaves open is filled from it and every
    /// name of the old one now means the new one. A form of a known family or material takes over what is known of that
    /// form, not its names. A new name always means the new material, even where it was a family's or an ambiguous word.
    #[must_use]
    pub fn with(&self, own: Vec<Material>) -> Self {
        let mut pantry = self.clone();
        for material in own {
            pantry.lay_over(material);
        }
        pantry
    }

    fn lay_over(&mut self, mut own: Material) {
        let named = self.look_up(&own.name).material().map(|base| base.id.clone());
        let named = named.or_else(|| self.by_id.contains_key(&own.id).then(|| own.id.clone()));
        let corrected = named
            .and_then(|id| self.by_id.get(&id).copied())
            .and_then(|at| Some((at, Arc::clone(self.materials.get(at)?))));
        let mut old_names = Vec::new();
        if let Some((at, base)) = &corrected {
            if !own.contradicts(base) {
                old_names = self.names.of(&Target::Material(*at));
            }
            own = own.over(base);
        } else if let Some(of) = own.of.clone() {
            own = self.as_form(own, &of);
        }
        own = own.with_derived_properties();
        own.properties = own.properties.union(self.held_properties(&own));
        let at = match self.by_id.get(&own.id) {
            Some(&at) => at,
            None => self.materials.len(),
        };
        if let Some(old) = self.materials.get(at) {
            let formula = old.formula.clone();
            if let Some(found) = formula.and_then(|formula| self.by_formula.get_mut(&formula)) {
                found.retain(|&other| other != at);
            }
        }
        if let Some(formula) = &own.formula {
            let found = self.by_formula.entry(formula.clone()).or_default();
            // A formula in a recipe goes on meaning the pure substance, unless the notebook corrects that one.
            if found.is_empty() {
                found.push(at);
            }
        }
        let target = Target::Material(at);
        for key in old_names {
            self.names.replace_key(key, &target);
        }
        for name in material_names(&own) {
            self.names.replace(name, &target);
        }
        for sign in &own.symbols {
            self.names.replace(sign, &Target::Pure(at));
        }
        self.by_id.insert(own.id.clone(), at);
        let own = Arc::new(own);
        match self.materials.get_mut(at) {
            Some(place) => *place = own,
            None => self.materials.push(own),
        }
    }

    /// Fills `own`, said to be a form of `of`, from the form of that family or from that material.
    fn as_form(&self, mut own: Material, of: &str) -> Material {
        let base = match self.look_up(of) {
            Lookup::Found { material, .. } => Some(material),
            Lookup::NeedsForm { forms, .. } => {
                own.of = forms.first().and_then(|form| form.of.clone());
                let mut forms = forms.into_iter();
                match &own.formula {
                    Some(formula) => forms.find(|form| form.formula.as_ref() == Some(formula)),
                    None => forms.find(|form| own.form.is_some() && form.form == own.form),
                }
            }
            _ => None,
        };
        match base {
            Some(base) => own.over(base),
            None => own,
        }
    }
}
