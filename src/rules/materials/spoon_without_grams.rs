//! A powder or plant by the spoon.

use crate::facts::{Dose, Known};
use crate::finding::{Grade, slug};
use crate::notebook::Notebook;
use crate::pantry::NOTEBOOK_SOURCE;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Dimension, Range, show};

pub(super) const RULE: Rule = Rule {
    name: slug::SPOON_WITHOUT_GRAMS,
    grade: Grade::Doubt,
    group: Group::Materials,
    looks_for: "A solid measured by volume: spoons, cups, pinches.",
    why: "The same spoon holds 2.2 to 6.5 g of dry washing soda, as the grain and the filling go. Such a bath \
              cannot be repeated.",
    instead: "Weigh one spoon of your packet and write the grams. Or give the packet's `density` in an \
              `ingredient` block.",
    threshold: None,
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
      washing soda, anhydrous: 6 tsp
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      vitamin C powder: 6 g
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

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in context.mixed {
        for dose in mixture.spoken_of(|dose| dose.amount.dimension == Dimension::Volume && solid(dose)) {
            let Some(span) = place(mixture.block, [dose.amount.span, dose.name.span]) else {
                continue;
            };
            let written = dose.amount.show(context.notebook.settings.style);
            let message = format!(
                "{written} of `{}` is no amount: a spoon is not a measure",
                dose.name.value
            );
            report.add(report.finding(span, message).help(help(context.notebook, dose)));
        }
    }
}

/// Whether it is known to be no liquid, and its spoon has not been weighed.
fn solid(dose: &Dose) -> bool {
    match &dose.known {
        Known::Material { material, .. } => {
            let weighed = material
                .spoon
                .as_ref()
                .is_some_and(|spoon| spoon.source() == NOTEBOOK_SOURCE);
            !dose.known.is_poured() && !weighed && (material.spoon.is_some() || material.form.is_some())
        }
        _ => false,
    }
}

fn help(notebook: &Notebook, dose: &Dose) -> String {
    match dose.grams(Range::exact(1.0)) {
        Some(grams) => format!(
            "weigh it once and write the grams: this may be {}",
            show(
                grams,
                Dimension::Mass,
                Digits::Significant(2),
                notebook.settings.style
            )
        ),
        None => "weigh it once and write the grams".to_owned(),
    }
}
