//! The facts of batches and sessions that follow from their baths: pH as mixed, what was measured, what is left.

use crate::chem::{Equilibrium, solve};
use crate::facts::bath::Bath;
use crate::facts::baths::Baths;
use crate::facts::fact::{Fact, Measure};
use crate::facts::log::Log;
use crate::notebook::{Batch, Measured, MeasuredWith, Notebook, Session};
use crate::units::{Digits, Dimension, Range, Style, show};

use super::capacity::{SHEETS, taken, whole};
use super::carry::{Gone, Load, load};
use super::of_recipe::ph_fact;
use super::solution::{Chemistry, Solution};

const PH: Measure = Measure::Amount(Dimension::PH, Digits::Decimals(1));
const GRAMS: Measure = Measure::Amount(Dimension::Mass, Digits::Significant(2));
const OF_MEASURED: &str = "the reading, less what the computed pH moves on dilution";
const LEFT: &str =
    "sheets until spent, less those that went through it or were planned to: parts of a sheet by their area";

/// How far a strip and a meter may be off (common practice, no source).
const STRIP: f64 = 0.3;
const METER: f64 = 0.1;

/// `pH`, `measured` and `sheets-left` of a batch.
pub(in crate::facts) fn batch_facts(
    batch: &Batch,
    id: &str,
    notebook: &Notebook,
    log: &Log<'_>,
    baths: &Baths,
    chemistry: &Chemistry,
    facts: &mut Vec<Fact>,
) {
    let style = notebook.settings.style;
    let recipe = baths.of_batch(id, batch);
    let Some(recipe) = recipe else {
        facts.push(Fact::new("pH", PH, "as its recipe's").gap("its recipe is not known"));
        return;
    };
    let solution = chemistry.of_batch(id, &recipe.id);
    facts.push(match solution {
        Ok(solution) => {
            let swapped;
            let bath = if batch.swaps.is_empty() {
                recipe
            } else {
                swapped = crate::facts::swapped(notebook, recipe, batch);
                &swapped
            };
            ph_fact("pH".to_owned(), bath, None, solution, style)
        }
        Err(why) => Fact::new("pH", PH, "as its recipe's").gap(why),
    });
    if let Some(measured) = batch.measured.get() {
        facts.push(measured_fact(measured, solution.ok(), style));
    }
    let mut fact = Fact::new("sheets-left", SHEETS, LEFT);
    let Some(litres) = in_trays(batch, recipe) else {
        facts.push(fact.gap("its volume cannot be read"));
        return;
    };
    let (mut used, mut one) = (Gone::NOTHING, None);
    for (block, session) in log.of_batch(id) {
        let load = load(notebook, session);
        used = used.and(load.gone);
        fact = fact.from(block.id.clone(), sheets_of(&load));
        one = one.or(load.one);
    }
    let place = chemistry.lines.place(&recipe.id);
    let one = one.or_else(|| {
        let (_, sheet) = chemistry.lines.sheet(place?.base)?;
        Some(sheet.clone())
    });
    let Some(one) = one else {
        facts.push(fact.gap("no paper says its size"));
        return;
    };
    let taken = taken(recipe, solution, litres, &one, chemistry, style);
    for (name, value) in taken.inputs {
        fact = fact.from(name, value);
    }
    let used = used.counted_in(Some(&one));
    let left = |sheets: Range| less(sheets, used).map_monotone(|left| left.max(0.0));
    facts.push(fact.result(taken.sheets.map(left)));
}

/// How many sheets a session brings, in words.
fn sheets_of(load: &Load) -> String {
    let all = load.gone.sheets;
    if all > load.listed {
        format!("{all} sheets, {} of them planned", all - load.listed)
    } else {
        format!("{all} sheets")
    }
}

/// Litres that a batch fills into trays; its volume is what was mixed.
fn in_trays(batch: &Batch, bath: &Bath) -> Option<Range> {
    Some(batch.volume.get()?.range * bath.thinning()?)
}

/// Whole sheets that are left; below zero where they are so many too many.
fn less(sheets: Range, used: f64) -> Range {
    sheets.map_monotone(|sheets| whole(sheets - used))
}

/// A reading, brought back to the bath as it is in the tray.
pub(super) fn measured_fact(measured: &Measured, solution: Option<&Solution>, style: Style) -> Fact {
    let fact = Fact::new("measured", PH, OF_MEASURED);
    let Some(reading) = measured.ph.get() else {
        return fact.gap("the reading cannot be read");
    };
    let mut fact = fact.from("reading", reading.show(style));
    let with = measured
        .with
        .get()
        .and_then(|with| MeasuredWith::from_word(with.value));
    let off = match with {
        Some(MeasuredWith::Meter) => METER,
        Some(MeasuredWith::Strip) | None => STRIP,
    };
    if let Some(with) = with {
        fact = fact.from("with", with.word());
    }
    let range = if reading.range.is_exact() {
        fact = fact.from("instrument", format!("± {off}, common practice, no source"));
        Range::plus_minus(reading.range.best, off)
    } else {
        reading.range
    };
    let Some(diluted) = measured.diluted.get() else {
        return fact.number(range);
    };
    fact = fact.from("diluted", diluted.show(style));
    let Some(moved) = solution.and_then(|solution| moved_by_dilution(solution, diluted.range.best)) else {
        return fact
            .gap("how far dilution moved the reading cannot be computed without the bath's composition");
    };
    fact = fact.from(
        "dilution moves it by",
        show(Range::exact(moved), Dimension::Number, Digits::Decimals(1), style),
    );
    fact.number(range - Range::exact(moved))
}

/// By how much the pH rises when so many parts of water come to one of the bath.
fn moved_by_dilution(solution: &Solution, parts: f64) -> Option<f64> {
    let composition = &solution.composition;
    let bath = composition.with_ranges().best();
    let litres = composition
        .litres
        .map_or(composition.kilograms.best, |litres| litres.best);
    let more = crate::units::scalar::Mass::from_kilograms(parts * litres);
    let diluted = bath.with_water(bath.water() + more);
    let after = solve(&diluted, composition.gas)
        .ok()
        .map(|found: Equilibrium| found.ph())?;
    Some(after - solution.band.best)
}

/// `sheets-left.<bath>` and `silver` of a session.
pub(in crate::facts) fn session_facts(
    session: &Session,
    notebook: &Notebook,
    baths: &Baths,
    chemistry: &Chemistry,
    facts: &mut Vec<Fact>,
) {
    let style = notebook.settings.style;
    let own = load(notebook, session);
    for (recipe, batch) in &session.baths {
        let (Some(bath), Some((block, mixed))) = (baths.get(&recipe.value), notebook.batch(&batch.value))
        else {
            continue;
        };
        let fact = Fact::new(
            format!("sheets-left.{}", recipe.value),
            SHEETS,
            "sheets until spent, less those of this session and of the batch's sessions before it, planned ones too: parts of a \
             sheet by their area",
        );
        facts.push(left_after(
            session, &own, bath, mixed, &block.id, chemistry, style, fact,
        ));
    }
    let silver = Fact::new(
        "silver",
        GRAMS,
        "area of the sheets, planned ones too, times the silver on it",
    )
    .from("sheets", sheets_of(&own));
    facts.push(match own.silver.filter(|_| own.gone.sheets > 0) {
        Some(grams) => {
            let said = own.one.as_ref().is_some_and(|one| one.silver_said);
            let from = if said {
                "as the paper says"
            } else {
                "0.54 to 3.2 g/m², from memory, unverified"
            };
            silver.from("silver of the paper", from).number(grams)
        }
        None => silver.gap("the size of a sheet is not known"),
    });
}

#[expect(
    clippy::too_many_arguments,
    reason = "what a session's bath is made of stands in as many places"
)]
fn left_after(
    session: &Session,
    own: &Load,
    bath: &Bath,
    batch: &Batch,
    batch_id: &str,
    chemistry: &Chemistry,
    style: Style,
    mut fact: Fact,
) -> Fact {
    let Some(litres) = in_trays(batch, bath) else {
        return fact.gap("its volume cannot be read");
    };
    let Some(one) = &own.one else {
        return fact.gap("the size of a sheet is not known");
    };
    let now = session.when.get().map(|when| when.value.at.timestamp());
    let before = now.map_or(Gone::NOTHING, |now| chemistry.lines.used_before(batch_id, now));
    fact = fact
        .from("here", sheets_of(own))
        .from("before", format!("{} sheets", before.sheets));
    let used = own.gone.and(before).counted_in(Some(one));
    let solution = chemistry.of_batch(batch_id, &bath.id);
    let taken = taken(bath, solution, litres, one, chemistry, style);
    for (name, value) in taken.inputs {
        fact = fact.from(name, value);
    }
    fact.result(taken.sheets.map(|sheets| less(sheets, used)))
}
