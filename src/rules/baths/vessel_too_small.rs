//! A jug that foams over.

use crate::finding::{Grade, slug};
use crate::notebook::Verb;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::volume;
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Dimension, Style, parse};

pub(super) const RULE: Rule = Rule {
    name: slug::VESSEL_TOO_SMALL,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A vessel named in a step, smaller than three times the bath, in which soda and acid meet.",
    why: "A mole of acid can free up to 24 litres of gas, and tea makes the foam stand.",
    instead: "Take an open jug of three times the volume.",
    threshold: Some("Below three times what the recipe makes."),
    sureness: Sureness::Practice,
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
    vessel: 1.5 l jug
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
    vessel: 3 l jug
  - make up
keeps: 1 h
```
",
        ),
    ],
    check: Some(check),
};

/// How many times the bath a vessel holds in which gas is made (common practice).
const TIMES: f64 = 3.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, bath) in context.baths() {
        let soda = bath
            .doses
            .iter()
            .any(|dose| dose.is(Property::Carbonate) || dose.is(Property::Bicarbonate));
        let acid = bath.first(Property::Acid).is_some();
        let (true, true, Some(makes)) = (soda, acid, bath.litres()) else {
            continue;
        };
        for step in &bath.recipe.steps {
            let (Verb::Pour | Verb::Combine, Some(vessel)) = (step.verb, step.vessel.get()) else {
                continue;
            };
            let Some(litres) = litres(&vessel.value, style) else {
                continue;
            };
            if litres >= TIMES * makes.best * (1.0 - 1e-9) {
                continue;
            }
            if let Some(span) = place(block, [vessel.span]) {
                let message = format!("`{}` is too small for what foams in it", vessel.value);
                report.add(report.finding(span, message).help(format!(
                    "take an open jug of at least {}",
                    volume(TIMES * makes.best, style)
                )));
            }
        }
    }
}

/// The volume that a vessel's name begins with, such as `3 l jug`.
fn litres(words: &str, style: Style) -> Option<f64> {
    let mut pieces = words.split_whitespace();
    let head = format!("{} {}", pieces.next()?, pieces.next().unwrap_or(""));
    let amount = parse(head.trim(), &[Dimension::Volume], style).ok()?;
    Some(amount.range.high)
}
