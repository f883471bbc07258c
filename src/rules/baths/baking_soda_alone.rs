//! A developer whose only alkali is baking soda.

use crate::facts::{Bath, Dose};
use crate::finding::{Grade, slug};
use crate::notebook::{Role, Verb};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::grams;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::what_if::other_soda;
use crate::units::Range;

pub(super) const RULE: Rule = Rule {
    name: slug::BAKING_SODA_ALONE,
    grade: Grade::Fault,
    group: Group::Baths,
    looks_for: "A developer with baking soda, or another hydrogen carbonate, as its only alkali.",
    why: "Baking soda is half-way to an acid. With vitamin C the bath comes out about neutral, pH 6.8 to 7.2, alone at \
          7.9 to 8.1. Below 9 nothing appears, however long you wait.",
    instead: "Use washing soda. Or bake the baking soda until it gets no lighter: 100 g become 63.1 g of anhydrous \
              washing soda, an adult's job at the oven.",
    threshold: Some("Any amount, where no stronger alkali is there."),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: wrong-soda
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      baking soda: 36 g
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
id: right-soda
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

/// Molar masses of anhydrous washing soda and of baking soda, two of which make one.
const BAKED: f64 = 105.988 / (2.0 * 84.007);

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for mixture in context.mixed {
        let (block, bath) = (mixture.block, &*mixture.bath);
        let judged = mixture.judged(|bath| alone(bath).map(|_| Grade::Fault));
        let (Some(_), Some(soda)) = (judged, alone(bath)) else {
            continue;
        };
        let Some(span) = mixture.point([soda.name.span, soda.amount.span]) else {
            continue;
        };
        let message = format!(
            "`{}` is the only alkali: this developer comes out about neutral and develops nothing",
            soda.name.value
        );
        let sodium = soda.formula().is_some_and(|formula| formula.count("Na") == 1);
        let weighed = soda.grams(bath.litres().unwrap_or(Range::exact(1.0)));
        let help = match weighed {
            Some(weighed) if sodium => format!(
                "write `washing soda, anhydrous`: baked until it gets no lighter, {} of baking soda become {} of it",
                grams(weighed.best, style),
                grams(weighed.best * BAKED, style)
            ),
            _ => "write `washing soda, anhydrous`; baked baking soda is just that".to_owned(),
        };
        let would = context.facts.chemistry.solution(&block.id).ok();
        let would = would.and_then(|solution| other_soda(context.notebook, bath, solution, style));
        let help = would.map_or_else(|| help.clone(), |numbers| format!("{help}; {numbers}"));
        report.add(report.finding(span, message).help(help));
    }
}

/// The baking soda of a developer that has no other alkali.
fn alone(bath: &Bath) -> Option<&Dose> {
    // Baked on the way, it is washing soda.
    if bath.role() != Some(Role::Developer) || !bath.complete || bath.recipe.does(Verb::Bake) {
        return None;
    }
    let weak = |dose: &&Dose| dose.is(Property::Bicarbonate) && !dose.is(Property::Leavening);
    let soda = bath.doses.iter().find(weak)?;
    // What is not known may be the alkali.
    let other = bath.doses.iter().any(|dose| strong(dose) || unknown(dose));
    (!soda.is(Property::Effervescent) && !other).then_some(soda)
}

/// An alkali that can carry a developer.
fn strong(dose: &Dose) -> bool {
    !dose.is(Property::Bicarbonate) && (dose.is(Property::Alkali) || dose.is(Property::Caustic))
}

fn unknown(dose: &Dose) -> bool {
    matches!(dose.known, crate::facts::Known::Unknown { .. })
}
