//! Too much vitamin C for the soda.

use crate::facts::Bath;
use crate::finding::{Grade, slug};
use crate::notebook::{Notebook, Role};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::{grams, number};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::{acid_equivalents, carbonate, contents, moles};
use crate::rules::told::told;
use crate::source::Span;

pub(super) const RULE: Rule = Rule {
    name: slug::VITAMIN_C_OVER_SODA,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A developer with so much acid, mostly vitamin C, that its soda cannot carry it.",
    why: "Vitamin C is an acid. Mole for mole it turns all carbonate into baking soda: pH about 8, and nothing \
              develops. With four carbonates to one the pH is 10.2, with two to one 9.9, below that it falls off a \
              cliff.",
    instead: "Weigh at least 2.4 g of anhydrous soda, or 6.5 g of crystals, for each gram of vitamin C.",
    threshold: Some("Acid over carbonate, mole by mole: above 0.25 a doubt, from 0.9 on a fault."),
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
      washing soda, anhydrous: 12 g
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
",
        ),
    ],
    check: Some(check),
};

/// Grams of anhydrous and of crystal soda in a mole.
const ANHYDROUS: f64 = 105.988;
const CRYSTALS: f64 = 286.141;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for mixture in context.mixed {
        let bath = &*mixture.bath;
        let judged = mixture.judged(|bath| {
            let (acid, soda) = balance(context.notebook, bath)?;
            grade(acid / soda)
        });
        let (Some(grade), Some((acid, soda))) = (judged, balance(context.notebook, bath)) else {
            continue;
        };
        let ratio = acid / soda;
        if mixture.is_batch() && told(report, mixture.block, &[slug::SWAP_WRONG_WAY]) {
            continue;
        }
        let held = bath.all(Property::Ascorbate).chain(bath.all(Property::Carbonate));
        let (amounts, names): (Vec<Span>, Vec<Span>) =
            held.map(|dose| (dose.amount.span, dose.name.span)).unzip();
        let Some(span) = mixture.point(amounts.into_iter().chain(names)) else {
            continue;
        };
        let message = format!(
            "{} mol of acid to one of carbonate: {}",
            number(ratio, 2, style),
            match grade {
                Grade::Fault => "the soda is used up, and nothing develops",
                _ if ratio > 0.5 => "the developer will be slow and thin",
                _ => "the pH comes out at the low end",
            }
        );
        let enough = acid / 0.25;
        report.add(report.graded(grade, span, message).help(format!(
            "for this much acid take {} of anhydrous soda or {} of crystals, or less vitamin C",
            grams(enough * ANHYDROUS, style),
            grams(enough * CRYSTALS, style)
        )));
    }
}

fn grade(ratio: f64) -> Option<Grade> {
    if ratio >= 0.9 {
        Some(Grade::Fault)
    } else {
        (ratio > 0.25).then_some(Grade::Doubt)
    }
}

/// Moles of acid hydrogen and of carbonate, where carbonate is the only alkali.
fn balance(notebook: &Notebook, bath: &Bath) -> Option<(f64, f64)> {
    if bath.role() != Some(Role::Developer) || !bath.complete || bath.first(Property::Ascorbate).is_none() {
        return None;
    }
    let other = [
        Property::Caustic,
        Property::Borate,
        Property::Phosphate,
        Property::Sulfite,
        Property::Ammonia,
    ];
    // Tablets and powders with soda of their own have faults of their own.
    let told = [Property::Effervescent, Property::Leavening];
    let strange = bath
        .doses
        .iter()
        .any(|dose| dose.properties().contains_any(&other) || dose.properties().contains_any(&told));
    if strange {
        return None;
    }
    let held = contents(notebook, bath)?;
    let soda = moles(&held, carbonate).best;
    (soda > 0.0).then(|| (moles(&held, acid_equivalents).best, soda))
}
