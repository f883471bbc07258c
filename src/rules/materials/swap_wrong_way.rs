//! A hydrate converted the wrong way round.

use crate::facts::{Bath, Dose, Known, known};
use crate::finding::{Grade, slug};
use crate::notebook::{Addition, Batch, Swap};
use crate::pantry::Formula;
use crate::rules::context::{Context, Report};
use crate::rules::figures::grams;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Dimension, Range};

pub(super) const RULE: Rule = Rule {
    name: slug::SWAP_WRONG_WAY,
    grade: Grade::Fault,
    group: Group::Materials,
    looks_for: "A batch that took less of a form with more water, or more of a form with less.",
    why: "Crystals are more than half water, so more of them must be weighed, not less. Multiplied the wrong \
              way, the bath has a seventh of its alkali.",
    instead: "From anhydrous to crystals multiply by 2.70 for soda, by 1.57 for hypo; the other way divide.",
    threshold: Some("Less mass than the recipe's, of a form that holds more water; or the reverse."),
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
swaps:
  washing soda, anhydrous: 0 g
  washing soda, crystals: 13.3 g
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
swaps:
  washing soda, anhydrous: 0 g
  washing soda, crystals: 97.2 g
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, batch) in context.notebook.batches() {
        let recipe = context.facts.baths.of_batch(&block.id, batch);
        let (Some(recipe), Some(volume)) = (recipe, batch.volume.get()) else {
            continue;
        };
        let Some(scale) = recipe.litres().map(|makes| volume.range.best / makes.best) else {
            continue;
        };
        for swap in &batch.swaps {
            if let Swap::Amount(taken) = swap {
                one(context, recipe, batch, taken, scale, report);
            }
        }
    }
}

fn one(
    context: &Context<'_>,
    recipe: &Bath,
    batch: &Batch,
    taken: &Addition,
    scale: f64,
    report: &mut Report,
) {
    let style = context.notebook.settings.style;
    if taken.amount.dimension != Dimension::Mass || taken.amount.range.best <= 0.0 {
        return;
    }
    let taken_known = known(context.notebook, &taken.material.value);
    let Some(other) = formula(&taken_known) else {
        return;
    };
    // The recipe's material that is the same salt in another form and was left out.
    let left_out = recipe.doses.iter().find(|dose| {
        let own = dose.formula();
        own.is_some_and(|own| own != other && own.anhydrous() == other.anhydrous()) && dropped(batch, dose)
    });
    let Some(dose) = left_out else { return };
    let (Some(own), Some(weight)) = (
        dose.formula(),
        dose.grams(recipe.litres().unwrap_or(Range::exact(1.0))),
    ) else {
        return;
    };
    let factor = other.molar_mass() / own.molar_mass();
    let took = taken.amount.range.best;
    let weight = weight.scale(scale);
    let wrong = if factor > 1.0 {
        took < weight.best
    } else {
        took > weight.best
    };
    if !wrong {
        return;
    }
    let message = format!(
        "{} of `{}` in the place of {} of `{}`: converted the wrong way round",
        grams(took, style),
        taken.material.value,
        grams(weight.best, style),
        dose.name.value
    );
    report.add(
        report
            .finding(taken.amount.span, message)
            .help(format!(
                "{} of `{}` are {} of `{}`",
                grams(weight.best, style),
                dose.name.value,
                grams(weight.best * factor, style),
                taken.material.value
            ))
            .relate(dose.name.span, "this is what the recipe says"),
    );
}

fn formula(known: &Known) -> Option<&Formula> {
    match known {
        Known::Material { material, .. } => material.formula.as_ref(),
        Known::Formula(formula) => Some(formula),
        _ => None,
    }
}

/// Whether the batch took nothing of a material of its recipe.
fn dropped(batch: &Batch, dose: &Dose) -> bool {
    batch.swaps.iter().any(|swap| match swap {
        Swap::Amount(addition) => {
            addition.material.value == dose.name.value && addition.amount.range.high <= 0.0
        }
        Swap::Material { from, .. } => from.value == dose.name.value,
    })
}
