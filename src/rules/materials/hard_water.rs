//! Chalk from hard water and soda.

use crate::facts::Bath;
use crate::finding::{Grade, slug};
use crate::notebook::Notebook;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::{carbonate, contents, moles};
use crate::units::Dimension;

pub(super) const RULE: Rule = Rule {
    name: slug::HARD_WATER,
    grade: Grade::Hint,
    group: Group::Materials,
    looks_for: "More than 10.6 g of carbonate soda in a litre, in a place where the tap is hard.",
    why: "Lime falls out of hard water as chalk. It does no harm to the pH, but the bath is cloudy and leaves \
              a bloom on sheets.",
    instead: "Use boiled or distilled water, or let the soda settle and pour off the clear part.",
    threshold: Some("Hardness above 1.5 mmol/l and carbonate above 0.1 mol/l."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
title: A test
zone: Europe/London
water:
  hardness: 3 mmol/l
---8<---
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
        Example::good(
            "
title: A test
zone: Europe/London
water:
  hardness: 0.4 mmol/l
---8<---
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

/// Hardness from which on chalk is seen, in mol/l (practice).
const HARD: f64 = 1.5e-3;
/// Carbonate from which on chalk is seen, in mol/l (practice).
const SODA: f64 = 0.1;

/// Molar mass of calcium carbonate in g/mol (IUPAC standard atomic weights).
const CHALK: f64 = 100.09;

fn check(context: &Context<'_>, report: &mut Report) {
    let water = context.notebook.settings.water.get();
    let Some(hardness) = water.and_then(|water| water.hardness.get()) else {
        return;
    };
    // A mass is one of calcium carbonate, as water works print it.
    let moles_per_litre = match hardness.dimension {
        Dimension::Molarity => hardness.range.best,
        Dimension::MassConcentration => hardness.range.best / CHALK,
        _ => return,
    };
    if moles_per_litre < HARD {
        return;
    }
    for mixture in context.mixed {
        let judged = mixture.judged(|bath| makes_chalk(context.notebook, bath).then_some(RULE.grade));
        if judged.is_none() {
            continue;
        }
        let soda = mixture.bath.all(Property::Carbonate);
        if let Some(span) = mixture.point(soda.map(|dose| dose.name.span)) {
            report.add(
                report
                    .finding(span, "soda makes chalk in water as hard as yours")
                    .help("use boiled or distilled water, or let it settle and pour off the clear part"),
            );
            // One reminder is enough for a notebook.
            return;
        }
    }
}

/// Whether a bath holds so much carbonate that hard water becomes cloudy.
fn makes_chalk(notebook: &Notebook, bath: &Bath) -> bool {
    let (held, litres) = (contents(notebook, bath), bath.litres());
    held.zip(litres)
        .is_some_and(|(held, litres)| moles(&held, carbonate).best >= SODA * litres.best)
}
