//! Facts of recipes: volume, strengths, how long mixing takes, whether the log has tried it.

use std::collections::BTreeMap;

use crate::clock::temperature;
use crate::notebook::{Body, Notebook, SecondPoint, Usage, Verdict, slug};
use crate::units::scalar::{Temperature, Time};
use crate::units::{Amount, Digits, Dimension, Range, Style, show};

use super::bath::Bath;
use super::chemistry::{self, Chemistry, Solution};
use super::cost;
use super::dose::{Dose, Known};
use super::fact::{Fact, Measure};
use super::log::Log;
use super::mixing;
use super::shelf::Shelf;

const STRENGTH: Measure = Measure::Amount(Dimension::MassConcentration, Digits::Significant(3));
const BY_VOLUME: Measure = Measure::Plain("ml/l", Digits::Significant(3));
const MOLAR: Measure = Measure::Amount(Dimension::Molarity, Digits::Significant(3));

pub(super) fn facts(
    bath: &Bath,
    notebook: &Notebook,
    shelf: &Shelf<'_>,
    log: &Log<'_>,
    chemistry: &Chemistry,
    style: Style,
) -> Vec<Fact> {
    let mut facts = vec![volume(bath, style)];
    facts.extend(part_volumes(bath, style));
    facts.extend(strengths(bath, chemistry.solution(&bath.id).ok(), style));
    chemistry::facts(bath, chemistry, style, &mut facts);
    mixing::facts(bath, notebook, style, &mut facts);
    facts.push(cost::recipe_fact(bath, shelf, notebook, style));
    facts.push(tested(bath, notebook, log));
    facts
}

/// How much of each material a bath holds: `strength` and `molar`. Amounts in mol/kg want the bath's solution.
pub fn strengths(bath: &Bath, solution: Option<&Solution>, style: Style) -> Vec<Fact> {
    let kilograms = solution.map(|solution| solution.composition.solvent());
    let mut facts = Vec::new();
    for doses in by_name(bath) {
        strength(bath, &doses, kilograms, style, &mut facts);
    }
    facts
}

fn volume(bath: &Bath, style: Style) -> Fact {
    let fact = Fact::new(
        "volume",
        Measure::Amount(Dimension::Volume, Digits::Significant(3)),
        "what the recipe makes",
    );
    match bath.recipe.makes.get() {
        Some(makes) => fact.from("makes", makes.show(style)).number(makes.range),
        None => fact.gap("the finished volume cannot be read"),
    }
}

/// What each part yields: as written, else its water and what is poured into it, less what its plants keep back.
fn part_volumes(bath: &Bath, style: Style) -> Vec<Fact> {
    let measure = Measure::Amount(Dimension::Volume, Digits::Significant(2));
    let mut facts = Vec::new();
    let shown = |range: Range| show(range, Dimension::Volume, Digits::Significant(2), style);
    for part in &bath.recipe.parts {
        let Some(name) = part.name.get() else { continue };
        let full = format!("{}.volume", slug(&name.value));
        if let Some(makes) = part.makes.get() {
            let fact = Fact::new(full, measure, "what the part makes").from("makes", makes.show(style));
            facts.push(fact.number(makes.range));
            continue;
        }
        let Some(water) = chemistry::water_of(bath, Some(&name.value)) else {
            continue;
        };
        let mut fact = Fact::new(
            full,
            measure,
            "water and liquids of the part, less what its plants keep back (from memory, unverified)",
        )
        .from("water", shown(water));
        let litres = bath.litres().unwrap_or(water);
        let mut volume = water;
        for dose in bath
            .doses
            .iter()
            .filter(|dose| dose.part.as_ref() == Some(&name.value))
        {
            if dose.amount.dimension == Dimension::Volume && dose.known.is_poured() {
                volume = volume + dose.amount.range;
                fact = fact.from(dose.name.value.clone(), dose.amount.show(style));
            }
            if let Some(back) = dose.keeps_back(litres) {
                let back = back.scale(1e-3);
                volume = volume - back;
                fact = fact.from(format!("kept back by {}", dose.name.value), shown(back));
            }
        }
        facts.push(if volume.low > 0.0 {
            fact.number(volume)
        } else {
            fact.gap("the plants may keep back all of their water")
        });
    }
    facts
}

/// The doses in order of writing; a material that goes into two parts is counted once, together.
fn by_name(bath: &Bath) -> Vec<Vec<&Dose>> {
    let mut places: BTreeMap<String, usize> = BTreeMap::new();
    let mut grouped: Vec<Vec<&Dose>> = Vec::new();
    for dose in &bath.doses {
        let at = *places.entry(slug(&dose.name.value)).or_insert(grouped.len());
        match grouped.get_mut(at) {
            Some(same) => same.push(dose),
            None => grouped.push(vec![dose]),
        }
    }
    grouped
}

/// Grams to the litre, and moles where the formula is known; of liquids millilitres to the litre.
///
/// `kilograms` is the water by which amounts in mol/kg are counted.
fn strength(bath: &Bath, doses: &[&Dose], kilograms: Option<f64>, style: Style, facts: &mut Vec<Fact>) {
    let Some(dose) = doses.first() else { return };
    let name = slug(&dose.name.value);
    let full = format!("strength.{name}");
    // A spoon of a powder is weighed by what it holds.
    let by_volume = doses.iter().all(|dose| {
        let is_solid = match &dose.known {
            Known::Material { .. } => !dose.known.is_poured(),
            known => matches!(known, Known::Formula(_)),
        };
        dose.amount.dimension == Dimension::Volume && dose.known.solution().is_none() && !is_solid
    });
    let (measure, formula) = if by_volume {
        (BY_VOLUME, "volume of the liquid over the finished volume")
    } else {
        (
            STRENGTH,
            "mass as weighed, of solutions that of the solid, over the finished volume",
        )
    };
    let mut fact = Fact::new(full, measure, formula);
    for dose in doses {
        fact = fact.from(dose.name.value.clone(), dose.amount.show(style));
    }
    let Some(litres) = bath.litres() else {
        facts.push(fact.gap("the finished volume cannot be read"));
        return;
    };
    fact = fact.from(
        "volume",
        bath.recipe
            .makes
            .get()
            .map_or_else(String::new, |makes| makes.show(style)),
    );
    if let Some(dilution) = bath.recipe.usage.dilution.get() {
        let dilution = dilution.show(style);
        fact = fact.from(
            "dilution",
            format!("{dilution}, not counted: this is the bath as it is mixed"),
        );
    }
    let total: Option<Range> = if by_volume {
        sum(doses.iter().map(|dose| Some(dose.amount.range.scale(1000.0))))
    } else {
        sum(doses.iter().map(|dose| grams(dose, litres, kilograms)))
    };
    let result = total.ok_or_else(|| cannot_weigh(dose)).and_then(|total| {
        total
            .checked_div(litres)
            .ok_or_else(|| "the finished volume is nothing".to_owned())
    });
    facts.push(fact.result(result));
    if by_volume || dose.formula().is_none() {
        return;
    }
    let molar = Fact::new(format!("molar.{name}"), MOLAR, "strength over molar mass").source("prohaska-2022");
    let molar = match dose.formula() {
        Some(formula) => molar
            .from("formula", formula.as_str())
            .from("molar mass", format!("{:.3} g/mol", formula.molar_mass())),
        None => molar,
    };
    let moles = sum(doses.iter().map(|dose| {
        let molar_mass = dose.formula()?.molar_mass();
        Some(grams(dose, litres, kilograms)?.scale(1.0 / molar_mass))
    }))
    .ok_or_else(|| cannot_weigh(dose))
    .and_then(|moles| {
        moles
            .checked_div(litres)
            .ok_or_else(|| "the finished volume is nothing".to_owned())
    });
    facts.push(molar.result(moles));
}

/// Grams of a dose; one in mol/kg by the kilograms of water.
fn grams(dose: &Dose, litres: Range, kilograms: Option<f64>) -> Option<Range> {
    match dose.amount.dimension {
        Dimension::Molality => Some(dose.amount.range.scale(kilograms? * dose.formula()?.molar_mass())),
        _ => dose.grams(litres),
    }
}

fn sum(terms: impl Iterator<Item = Option<Range>>) -> Option<Range> {
    terms.reduce(|a, b| Some(a? + b?)).flatten()
}

fn cannot_weigh(dose: &Dose) -> String {
    let amount = &dose.amount;
    if dose.known.solution().is_some() {
        return dose.no_density();
    }
    match amount.dimension {
        Dimension::Volume => format!(
            "a spoon of `{}` has no known weight: weigh one and give its `density`",
            dose.name.value
        ),
        Dimension::Count => format!(
            "what one of `{}` weighs is not known: write `6 × 500 mg`",
            dose.name.value
        ),
        Dimension::AmountOfSubstance | Dimension::Molarity | Dimension::Molality
            if dose.formula().is_none() =>
        {
            format!("the formula of `{}` is not known", dose.name.value)
        }
        Dimension::Molality => "how much water it is counted by is not known".to_owned(),
        _ => format!("{} cannot be weighed", amount.dimension.with_article()),
    }
}

/// Whether a session of the log used the recipe as it is and a sheet of it came out right.
fn tested(bath: &Bath, notebook: &Notebook, log: &Log<'_>) -> Fact {
    let mut fact = Fact::new(
        "tested",
        Measure::Flag("tested", "untested"),
        "a session used it and a sheet came out right",
    );
    for (block, session) in log.of_recipe(&bath.id) {
        let mut own = session.baths.iter().filter(|(recipe, _)| recipe.value == bath.id);
        let other = own.any(|(_, batch)| notebook.has_changed_since(&batch.value));
        if other {
            fact = fact.from("session by an earlier text of it", block.id.clone());
            continue;
        }
        let good =
            session.sheets.iter().any(
                |sheet| match notebook.block(&sheet.value).map(|sheet| &sheet.body) {
                    Some(Body::Exposure(exposure)) => {
                        matches!(
                            exposure.result.get().map(|result| &result.value),
                            Some(Verdict::Right | Verdict::RightAtStep(_))
                        )
                    }
                    Some(Body::Print(print)) => {
                        matches!(
                            print.result.get().map(|result| &result.value),
                            Some(Verdict::Right | Verdict::RightAtStep(_))
                        )
                    }
                    _ => false,
                },
            );
        if good {
            return fact.from("session", block.id.clone()).flag(true);
        }
        fact = fact.from("session without a good result", block.id.clone());
    }
    fact.flag(false)
}

/// The time of a bath at a temperature, from its stated time and temperature and its Q10.
///
/// The stated temperature counts at the middle of its range. Where the recipe gives no second point, Q10 is 2.0 ± 0.5:
/// reported values run from 1.5 to 4, and no figure for plant developers was found (common practice, no source).
pub(super) fn time_at(usage: &Usage, temperature: &Amount, style: Style, fact: Fact) -> Fact {
    let Some(time) = usage.time.get() else {
        return fact.gap("the recipe does not say its time");
    };
    let Some(stated) = usage.temperature.get() else {
        return fact.gap("the recipe does not say at which temperature its time holds");
    };
    let fact = fact
        .from("time", time.show(style))
        .from("stated temperature", stated.show(style))
        .from("real temperature", temperature.show(style));
    let reference = Temperature::from_celsius(stated.range.best);
    let (q10, fact) = match usage.at.get().map(|at| &at.value) {
        Some(SecondPoint::Q10(q10)) => (q10.range, fact.from("Q10", q10.show(style))),
        Some(SecondPoint::Point {
            time: second,
            temperature: at,
        }) => {
            let first = (Time::from_seconds(time.range.best), reference);
            let other = (
                Time::from_seconds(second.range.best),
                Temperature::from_celsius(at.range.best),
            );
            let fact = fact.from(
                "second point",
                format!("{} at {}", second.show(style), at.show(style)),
            );
            match temperature::q10_from_two(first, other) {
                Some(q10) => (Range::exact(q10), fact),
                None => return fact.gap("the second time is given at the same temperature"),
            }
        }
        None => {
            let q10 = Range::plus_minus(2.0, 0.5);
            let shown = show(q10, Dimension::Number, Digits::Significant(2), style);
            (
                q10,
                fact.from("Q10", format!("{shown}, assumed (common practice, no source)")),
            )
        }
    };
    match temperature::q10_time_range(time.range, reference, temperature.range, q10) {
        Some(range) => fact.number(range),
        None => fact.gap("a temperature this far from the stated one is beyond the formula"),
    }
}
