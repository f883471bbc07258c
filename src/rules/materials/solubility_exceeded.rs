//! More than the water takes.

use crate::facts::{Bath, Dose};
use crate::finding::{Grade, slug};
use crate::notebook::{Role, Slot, Verb, Water};
use crate::pantry::{Form, Material, Property};
use crate::rules::context::{Context, Report};
use crate::rules::figures::{grams, number};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Dimension, Range};

/// No powder for a bath dissolves better, in g per kg of water: potassium carbonate comes to 1100 (assumed).
const ANYTHING: f64 = 1500.0;

pub(super) const RULE: Rule = Rule {
    name: slug::SOLUBILITY_EXCEEDED,
    grade: Grade::Fault,
    group: Group::Materials,
    looks_for: "More of a salt than dissolves in the water of its part at its temperature.",
    why: "What does not dissolve lies on the ground, and the bath is weaker than it says. Grains leave dark \
              spots on sheets.",
    instead: "Use more water for that part, warmer water, or less salt.",
    threshold: Some(
        "Above the highest estimate of its solubility at the temperature of the water, or of the finished bath at its working temperature; 20 °C where none is given. Of what has no figure, 1.5 kg in a litre.",
    ),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: borax-stock
role: stock
makes: 1 l
water: 800 ml at 20 °C
add:
  borax: 150 g
keeps: 4 weeks
```
",
        ),
        Example::good(
            "
```recipe
id: borax-stock
role: stock
makes: 1 l
water: 800 ml at 20 °C
add:
  borax: 20 g
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for mixture in context.mixed {
        for dose in mixture.spoken_of_in(|bath, dose| over(bath, dose).is_some()) {
            let Some(over) = over(&mixture.bath, dose) else {
                continue;
            };
            if let Some(span) = mixture.point([dose.amount.span, dose.name.span]) {
                let message = format!(
                    "{} of `{}` do not dissolve in this water: at {} °C it takes {}",
                    grams(over.weight, style),
                    dose.name.value,
                    number(over.water.celsius, 3, style),
                    grams(over.limit * over.water.kilograms, style)
                );
                report.add(report.finding(span, message).help(format!(
                    "take at least {} litres of water for it, warmer water, or less of it",
                    number(over.weight / over.limit * 1.05, 2, style)
                )));
            }
        }
    }
}

/// More than a water takes: the water, what a kilogram of it takes at most, and what is to be dissolved, in g.
struct Over {
    water: Solvent,
    limit: f64,
    weight: f64,
}

/// Whether a dose is more than dissolves, first as it is dissolved, then as it is used: what dissolved warm may fall out in
/// the tray.
fn over(bath: &Bath, dose: &Dose) -> Option<Over> {
    let material = dose.material();
    let litres = bath.litres().unwrap_or(Range::exact(1.0));
    // Baking soda in a developer has a fault of its own, and goes out whole.
    if dose.is(Property::Bicarbonate) && bath.role() == Some(Role::Developer) {
        return None;
    }
    // A solution is no salt, and an alkali takes up what is acid.
    let acid = dose.is(Property::Acid) || dose.is(Property::Phenolic) || dose.is(Property::Borate);
    let taken_up = acid && !dose.is(Property::Alkali) && bath.first(Property::Alkali).is_some();
    let liquid = material.is_some_and(|material| material.form == Some(Form::Liquid));
    if liquid || taken_up || dose.is(Property::Plant) {
        return None;
    }
    // What is poured as a solution is dissolved already.
    let solution = dose.known.solution().is_some();
    let first = (!solution).then(|| water(bath, dose)).flatten();
    [first, finished(bath)].into_iter().flatten().find_map(|water| {
        let weight = weighed(dose, litres, water.kilograms)?.best;
        let limit = material.map_or(Some(ANYTHING), |material| limit(material, water.celsius))?;
        // A hair above is the figure's own spread. Without any water another rule speaks.
        let over = water.kilograms > 0.0 && weight > limit * water.kilograms * 1.02;
        over.then_some(Over { water, limit, weight })
    })
}

struct Solvent {
    kilograms: f64,
    celsius: f64,
}

/// The finished bath at its working temperature.
fn finished(bath: &Bath) -> Option<Solvent> {
    let used = bath.recipe.usage.temperature.get().map(|warm| warm.range.low);
    Some(Solvent {
        kilograms: bath.litres()?.best,
        celsius: used.unwrap_or(20.0),
    })
}

/// The water that a material is dissolved in: that of its part, else what the bath makes.
fn water(bath: &Bath, dose: &Dose) -> Option<Solvent> {
    let recipe = &bath.recipe;
    let part = recipe
        .parts
        .iter()
        .find(|part| dose.part.is_some() && part.name.get().map(|name| &name.value) == dose.part.as_ref());
    let steps = part.map_or(&recipe.steps, |part| &part.steps);
    // Heated water takes more, and how much is not known here.
    if steps
        .iter()
        .any(|step| matches!(step.verb, Verb::Heat | Verb::Boil))
    {
        return None;
    }
    let put_in: &Slot<Water> = part.map_or(&recipe.water, |part| &part.water);
    let used = recipe.usage.temperature.get().map(|warm| warm.range.high);
    match put_in {
        Slot::Is(water) => {
            let amount = &water.amount;
            let kilograms = if amount.dimension == Dimension::Mass {
                amount.range.best / 1000.0
            } else {
                amount.range.best
            };
            let celsius = water.at.as_ref().map(|at| at.range.high).or(used);
            Some(Solvent {
                kilograms,
                celsius: celsius.unwrap_or(20.0),
            })
        }
        Slot::Absent if part.is_none() => Some(Solvent {
            kilograms: bath.litres()?.best,
            celsius: used.unwrap_or(20.0),
        }),
        _ => None,
    }
}

/// Grams of a dose, where it is a powder.
fn weighed(dose: &Dose, litres: Range, kilograms: f64) -> Option<Range> {
    match dose.amount.dimension {
        Dimension::Molality => {
            let molar_mass = dose.formula()?.molar_mass();
            Some(dose.amount.range.scale(kilograms * molar_mass))
        }
        _ => dose.grams(litres),
    }
}

/// Grams that dissolve in a kilogram of water at most; none outside of what is known.
fn limit(material: &Material, celsius: f64) -> Option<f64> {
    let points = &material.solubility;
    if points.is_empty() {
        return Some(ANYTHING);
    }
    let (first, last) = (points.first()?, points.last()?);
    if celsius <= first.celsius {
        return Some(first.grams_per_kilogram.high());
    }
    if celsius > last.celsius + 2.0 {
        return None;
    }
    let mut below = first;
    for point in points {
        if point.celsius >= celsius {
            let span = point.celsius - below.celsius;
            let share = if span > 0.0 {
                (celsius - below.celsius) / span
            } else {
                1.0
            };
            let (low, high) = (below.grams_per_kilogram.high(), point.grams_per_kilogram.high());
            return Some(low + share * (high - low));
        }
        below = point;
    }
    Some(last.grams_per_kilogram.high())
}
