//! A measured pH that the recipe cannot have given.

use crate::facts::{Bath, known, solve_bath, swapped};
use crate::finding::{Grade, slug};
use crate::notebook::{Batch, MeasuredWith, Notebook};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::told::{PH_CAUSES, told};
use crate::rules::what_if::as_ph;
use crate::units::{Range, Style};

pub(super) const RULE: Rule = Rule {
    name: slug::MEASURED_DISAGREES,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A batch whose measured pH, brought back from its dilution, has nothing in common with the computed band.",
    why: "Either the bath is not what the recipe says, or the reading is not. Which single slip would give that reading can be computed, and asked before the next sheet is wasted.",
    instead: "Go through the suspects in the order given; write what was really taken under `swaps`.",
    threshold: Some(
        "The band of the reading (0.3 for a strip, 0.1 for a meter, where it gives none) and the computed band do not overlap.",
    ),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: rosemary
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 36 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      vitamin C powder: 12 g
    steps:
      - dissolve: 2 min
steps:
  - pour: [agent, into alkali]
  - make up
keeps: 1 h
```
```batch
id: may-mix
of: rosemary
made: 2031-05-02 19:00
volume: 1 l
by: MT
measured:
  pH: 7.2
  with: strip
```
",
        ),
        Example::good(
            "
```recipe
id: rosemary
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 36 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      vitamin C powder: 12 g
    steps:
      - dissolve: 2 min
steps:
  - pour: [agent, into alkali]
  - make up
keeps: 1 h
```
```batch
id: may-mix
of: rosemary
made: 2031-05-02 19:00
volume: 1 l
by: MT
measured:
  pH: 10.3
  with: strip
```
",
        ),
    ],
    check: Some(check),
};

/// By how much colour may mislead a strip (common practice, no source).
const STAINED: f64 = 0.6;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, batch) in context.notebook.batches() {
        let ph = |name: &str| context.facts.get(&block.id, name)?.range();
        let (Some(computed), Some(read)) = (ph("pH"), ph("measured")) else {
            continue;
        };
        let reading = batch.measured.get().and_then(|measured| measured.ph.get());
        let recipe = context.facts.baths.of_batch(&block.id, batch);
        let (Some(reading), Some(recipe)) = (reading, recipe) else {
            continue;
        };
        let explained = context
            .notebook
            .block(&recipe.id)
            .is_some_and(|mixed| told(report, mixed, PH_CAUSES))
            || told(report, block, PH_CAUSES);
        // What is printed alike agrees: nobody reads a strip to less than a tenth.
        if to_tenths(computed).overlaps(to_tenths(read)) || explained {
            continue;
        }
        let message = format!(
            "measured {}, computed {}",
            as_ph(read, style),
            as_ph(computed, style)
        );
        let mut finding = report.finding(reading.span, message);
        let bath = swapped(context.notebook, recipe, batch);
        let found = suspects(context.notebook, &bath, batch, computed, read, style);
        finding = finding.help(if found.is_empty() {
            "no single slip explains that: read again, with a fresh strip or a meter set by a buffer"
                .to_owned()
        } else {
            format!("ask in this order: {}", found.join("; "))
        });
        report.add(finding);
    }
}

/// A pH as it is printed.
fn to_tenths(ph: Range) -> Range {
    let tenth = |ph: f64| (ph * 10.0).round() / 10.0;
    Range::new(tenth(ph.low), tenth(ph.best), tenth(ph.high))
}

/// Single slips that bring the computed pH nearer to the reading, best first.
fn suspects(
    notebook: &Notebook,
    bath: &Bath,
    batch: &Batch,
    computed: Range,
    read: Range,
    style: Style,
) -> Vec<String> {
    let far = (computed.best - read.best).abs();
    let mut found: Vec<(f64, String)> = Vec::new();
    for (words, other) in slips(notebook, bath) {
        let Ok(solution) = solve_bath(notebook, &other) else {
            continue;
        };
        let left = (solution.band.best - read.best).abs();
        if left < 0.5 * far {
            let shown = as_ph(Range::exact(solution.band.best), style);
            found.push((left, format!("{words} ({shown})")));
        }
    }
    let measured = batch.measured.get();
    let strip = measured.and_then(|measured| measured.with.get());
    let strip = strip.and_then(|with| MeasuredWith::from_word(with.value)) != Some(MeasuredWith::Meter);
    if strip && far <= STAINED + 0.5 * (read.high - read.low) {
        let coloured = bath.first(Property::Plant).is_some();
        let left = if coloured { 0.0 } else { 0.5 * far };
        found.push((left, "was the strip stained, or old?".to_owned()));
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found.into_iter().map(|(_, words)| words).collect()
}

/// Each single slip in words, and the bath that it gives.
fn slips(notebook: &Notebook, bath: &Bath) -> Vec<(String, Bath)> {
    let mut slips = Vec::new();
    for (at, dose) in bath.doses.iter().enumerate() {
        let name = &dose.name.value;
        let mut taken = |words: String, material: &str| {
            let mut other = bath.clone();
            if let Some(dose) = other.doses.get_mut(at) {
                dose.known = known(notebook, material);
            }
            slips.push((words, other));
        };
        if dose.is(Property::Carbonate) {
            let crystals = dose.formula().is_some_and(|formula| formula.water() >= 7);
            if crystals {
                taken(
                    format!("was it anhydrous soda, not `{name}`?"),
                    "washing soda, anhydrous",
                );
            } else {
                taken(
                    format!("was it crystals, not `{name}`?"),
                    "washing soda, crystals",
                );
            }
            taken(format!("was it baking soda, not `{name}`?"), "baking soda");
        } else if dose.is(Property::Bicarbonate) {
            taken(
                format!("was it washing soda, not `{name}`?"),
                "washing soda, anhydrous",
            );
        }
        let mut scaled = |words: String, factor: f64| {
            let mut other = bath.clone();
            if let Some(dose) = other.doses.get_mut(at) {
                dose.amount.amount = dose.amount.amount.scaled(factor);
            }
            slips.push((words, other));
        };
        if dose.is(Property::Carbonate) || dose.is(Property::Alkali) {
            scaled(format!("was half of `{name}` not dissolved?"), 0.5);
        } else if dose.is(Property::Acid) || dose.is(Property::Ascorbate) {
            scaled(format!("was `{name}` put in twice?"), 2.0);
            scaled(format!("was half of `{name}` left out?"), 0.5);
        }
    }
    slips
}
