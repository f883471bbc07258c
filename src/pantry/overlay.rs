//! A notebook's own materials laid over those of the pantry.

use std::sync::Arc;

use super::lookup::Lookup;
use super::material::Material;
use super::names::Target;
use super::store::{Pantry, material_names};
use super::strength::Strength;

impl Pantry {
    /// This pantry with a notebook's own materials laid over it.
    ///
    /// A material whose name (with its form, where the name alone is a family's) or id stands here already corrects that
    /// one: what it leaves open is filled from it and every name of the old one now means the new one. A form `of` a
    /// known family or material takes over what is known of that form, not its names; one with the formula of a known
    /// substance what is known of the substance, not of its packet. A name that was a family's or an
    /// ambiguous word means the new material only if that says what it is, by formula, contents or form: a price alone
    /// does not answer which soda.
    #[must_use]
    pub fn with(&self, own: Vec<Material>) -> Self {
        let mut pantry = self.clone();
        for material in own {
            pantry.lay_over(material);
        }
        pantry
    }

    fn lay_over(&mut self, mut own: Material) {
        // A packet of a stated strength is one of several: the bare name goes on asking which.
        let corrected = match self.meaning(&own.name) {
            Some(Lookup::Found {
                strength: Some(strength),
                ..
            }) if strength != Strength::PURE => None,
            _ => self.known_form(&own, &own.name),
        };
        let corrected = corrected.or_else(|| self.by_id.get(&own.id).copied());
        let base = corrected.or_else(|| self.known_form(&own, own.of.as_deref()?));
        let substance = match base {
            None => self.only_with_formula(&own).map(Arc::clone),
            Some(_) => None,
        };
        let base = base.and_then(|at| self.materials.get(at)).map(Arc::clone);
        let contradicts = base.as_ref().is_some_and(|base| own.contradicts(base));
        let of = own.of.as_deref().unwrap_or(&own.name);
        own.of = self.family_of(of).or(own.of);
        if let Some(base) = &base {
            own = own.over(base);
        }
        if let Some(substance) = &substance {
            own = own.as_substance(substance);
        }
        own = own.with_derived_properties();
        own.properties = own.properties.union(self.held_properties(&own));

        let known_as = self.by_id.get(&own.id).copied();
        // What contradicts a material of the same id does not displace it: other names go on meaning the old one.
        let at = known_as.filter(|_| !contradicts).unwrap_or(self.materials.len());
        let target = Target::Material(at);
        if let Some(corrected) = corrected.filter(|_| !contradicts) {
            for key in self.names.of(&Target::Material(corrected)) {
                self.names.replace_key(key, &target);
            }
        }
        let says_what = own.formula.is_some() || !own.contains.is_empty();
        for name in material_names(&own) {
            let open = matches!(
                self.names.get(name),
                Some(Target::Family(_) | Target::Ambiguous(_))
            );
            if says_what || !open {
                self.names.replace(name, &target);
            }
        }
        for sign in &own.symbols {
            self.names.replace(sign, &Target::Pure(at));
        }
        self.leave_formula(at);
        if let Some(formula) = &own.formula {
            // Another material may have that formula: in a recipe it goes on meaning the pure substance.
            self.by_formula.entry(formula.clone()).or_insert_with(|| vec![at]);
        }
        self.by_id.insert(own.id.clone(), at);
        let own = Arc::new(own);
        match self.materials.get_mut(at) {
            Some(place) => *place = own,
            None => self.materials.push(own),
        }
    }

    /// The place of the material that `name` means, taken together with the form or formula of `own`.
    fn known_form(&self, own: &Material, name: &str) -> Option<usize> {
        let found = match self.meaning(name)? {
            Lookup::Found { material, .. } => material,
            Lookup::NeedsForm { forms, .. } => forms.into_iter().find(|form| match &own.formula {
                Some(formula) => form.formula.as_ref() == Some(formula),
                None => own.form.is_some() && form.form == own.form,
            })?,
            _ => return None,
        };
        self.by_id.get(&found.id).copied()
    }

    /// The id of the family that `name` means, if it means one.
    fn family_of(&self, name: &str) -> Option<String> {
        match self.names.get(name) {
            Some(Target::Family(id)) => Some(id.clone()),
            _ => None,
        }
    }

    /// The one material that is the substance of this formula.
    fn only_with_formula(&self, own: &Material) -> Option<&Arc<Material>> {
        // What is thinned is not what the pure substance is: 3 % of peroxide neither burns nor bleaches as 30 % does.
        let thinned = own.purity.as_ref().is_some_and(|purity| purity.best() < 0.8);
        if thinned || !own.contains.is_empty() {
            return None;
        }
        match self.by_formula.get(own.formula.as_ref()?)?.as_slice() {
            [only] => self.materials.get(*only),
            _ => None,
        }
    }

    /// No longer lets a formula find what stands at this place.
    fn leave_formula(&mut self, at: usize) {
        let Some(formula) = self.materials.get(at).and_then(|old| old.formula.clone()) else {
            return;
        };
        if let Some(places) = self.by_formula.get_mut(&formula) {
            places.retain(|&place| place != at);
            if places.is_empty() {
                self.by_formula.remove(&formula);
            }
        }
    }
}
