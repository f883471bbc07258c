//! `based on` filled in: a recipe with what the one that it differs from supplies.

use crate::notebook::{Addition, Block, Part, Recipe, Slot, Usage};

/// Finds the recipe that another is based on.
pub(super) type Bases<'n, 'f> = dyn Fn(&str) -> Option<(&'n Block, &'n Recipe)> + 'f;

/// A recipe with what its `based on` supplies: whole values key by key, materials and parts by name.
pub(super) fn merged<'n>(bases: &Bases<'n, '_>, recipe: &Recipe, seen: &mut Vec<&'n str>) -> Recipe {
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
    own.usage = Usage {
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
