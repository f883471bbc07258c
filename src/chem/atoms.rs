//! A formula taken apart into the totals that it holds, by its atoms alone.

use std::collections::BTreeMap;

use super::data::Data;
use crate::pantry::Formula;

/// Slots of totals with the units of each.
pub(super) type Parts = Vec<(usize, f64)>;

type Atoms = BTreeMap<&'static str, i64>;

fn atoms_of(formula: &Formula) -> Atoms {
    let elements = formula.elements().iter();
    elements
        .map(|(element, count)| (element.symbol(), i64::from(*count)))
        .collect()
}

/// Molecules of water in a formula that is water and nothing else.
pub(super) fn free_water(formula: &Formula) -> u32 {
    let atoms = atoms_of(formula);
    let only = atoms.keys().all(|symbol| matches!(*symbol, "H" | "O"));
    if only && formula.count("H") == 2 * formula.count("O") {
        formula.count("O")
    } else {
        0
    }
}

/// The totals that one formula unit holds.
///
/// Metals are exchanged for hydrogen, so that the acid is left; that is recognised up to water, which makes borax so many
/// boric acids and disulfite two sulfurous acids.
pub(super) fn parts_of(data: &Data, formula: &Formula) -> Option<Parts> {
    if data
        .inert
        .iter()
        .any(|inert| inert.elements() == formula.elements())
    {
        return Some(Vec::new());
    }
    let mut atoms = atoms_of(formula);
    let mut parts = Vec::new();
    for (at, ion) in data.strong.iter().enumerate() {
        let Some(element) = ion.element.as_deref() else {
            continue;
        };
        if let Some(count) = atoms.remove(element) {
            parts.push((data.slot_of_strong(at), count as f64));
            *atoms.entry("H").or_insert(0) += count;
        }
    }
    let acids = data.families.iter().map(|family| &family.acid).enumerate();
    let strong = data.strong.iter().enumerate();
    let strong = strong.filter_map(|(at, ion)| Some((data.slot_of_strong(at), ion.acid.as_ref()?)));
    let ammonia = data.slot("ammonia")?;
    let mut best: Option<(i64, i64, i64, usize)> = None;
    for (slot, acid) in acids.chain(strong) {
        let acid = atoms_of(acid);
        for ammonium in 0..=3 {
            let mut rest = atoms.clone();
            *rest.entry("N").or_insert(0) -= ammonium;
            *rest.entry("H").or_insert(0) -= 3 * ammonium;
            let Some((units, water)) = multiple_of(&rest, &acid) else {
                continue;
            };
            // Organic acids do not join by giving off water here: nine acetic acids less ten waters are rosmarinic acid.
            if water < 0 && acid.contains_key("C") && slot != data.carbonic {
                continue;
            }
            // An acid amide, such as sulfamic acid, is no ammonium salt.
            if water < 0 && ammonium > 0 && units == 1 {
                continue;
            }
            let found = (water.abs(), units, ammonium, slot);
            best = Some(best.map_or(found, |best| best.min(found)));
        }
    }
    if let Some((_, units, ammonium, slot)) = best {
        if ammonium > 0 {
            parts.push((ammonia, ammonium as f64));
        }
        parts.push((slot, units as f64));
        return Some(parts);
    }
    // Hydroxides and water: nothing is left but hydrogen and oxygen in the proportion of water.
    let water = atoms.iter().all(|(symbol, _)| matches!(*symbol, "H" | "O"));
    let count = |symbol| atoms.get(symbol).copied().unwrap_or(0);
    (water && count("H") == 2 * count("O")).then_some(parts)
}

/// How many times `acid` is in `atoms`, and with how much water beside it, which may be less than none.
fn multiple_of(atoms: &Atoms, acid: &Atoms) -> Option<(i64, i64)> {
    let count = |of: &Atoms, symbol| of.get(symbol).copied().unwrap_or(0);
    let (key, per) = acid.iter().find(|(symbol, _)| !matches!(**symbol, "H" | "O"))?;
    let units = count(atoms, *key) / per;
    if units < 1 {
        return None;
    }
    let others = atoms.keys().chain(acid.keys());
    for symbol in others.filter(|symbol| !matches!(**symbol, "H" | "O")) {
        if count(atoms, *symbol) != units * count(acid, *symbol) {
            return None;
        }
    }
    let hydrogen = count(atoms, "H") - units * count(acid, "H");
    let oxygen = count(atoms, "O") - units * count(acid, "O");
    (hydrogen == 2 * oxygen).then_some((units, oxygen))
}
