//! A developer near the edge of where it works, with little to hold it there.

use crate::facts::{Bath, Solution};
use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::told::{CAUSTIC_CAUSES, WINDOW_CAUSES, told};
use crate::rules::what_if::as_ph;

pub(super) const RULE: Rule = Rule {
    name: slug::ALKALI_HEADROOM,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A developer whose pH is within 0.3 of the low end of its window and whose buffer is below 0.02 mol/kg for each unit of pH.",
    why: "Every sheet frees a little acid, and the air adds some. Without a buffer the first sheets come, the next ones are slow, and the last never appear.",
    instead: "Take more of the alkali, or a stronger one: soda in place of borax.",
    threshold: Some(
        "Within 0.3 of 9.3 with vitamin C, of 9.0 without; buffer below 0.02 mol/kg for each unit of pH.",
    ),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: rosemary
role: developer
makes: 10 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 3 g
      baking soda: 8 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      sodium ascorbate: 60 g
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

/// How near the edge counts as near, and how little buffer as little, in mol/kg for each unit of pH.
const NEAR: f64 = 0.3;
const LITTLE: f64 = 0.02;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for mixture in context.mixed {
        let (block, bath) = (mixture.block, &*mixture.bath);
        let (true, Ok(solution)) = (mixture.own(), context.facts.chemistry.solution(&block.id)) else {
            continue;
        };
        if !is_near(bath, solution) {
            continue;
        }
        let of_recipe = mixture.recipe().is_some_and(|recipe| {
            let written = context.facts.chemistry.solution(&recipe.id);
            written.is_ok_and(|written| is_near(recipe, written))
        });
        let causes = [
            WINDOW_CAUSES,
            CAUSTIC_CAUSES,
            &[slug::PH_OUTSIDE_WINDOW, slug::SWAP_WRONG_WAY],
        ];
        if of_recipe || causes.into_iter().any(|causes| told(report, block, causes)) {
            continue;
        }
        let message = format!(
            "at {} this developer is near where it stops working, and {} mol/kg of buffer will not hold it",
            as_ph(solution.ph(), style),
            number(solution.buffer.best, 2, style)
        );
        report.add(
            report
                .finding(mixture.head(), message)
                .help("take more of the alkali: 20 g of anhydrous soda in a litre hold several dozen sheets"),
        );
    }
}

/// Whether a developer is near the low end of its window, with little buffer to hold it there.
fn is_near(bath: &Bath, solution: &Solution) -> bool {
    let edge = if bath.first(Property::Ascorbate).is_some() {
        9.3
    } else if bath.first(Property::Phenolic).is_some() {
        9.0
    } else {
        return false;
    };
    let (ph, buffer) = (solution.band.best, solution.buffer.best);
    let near = ph < edge + NEAR && ph >= edge - NEAR && buffer < LITTLE;
    near && bath.role() == Some(Role::Developer) && solution.composition.baked.is_empty()
}
