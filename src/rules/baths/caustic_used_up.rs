//! Less caustic than the vitamin C eats.

use crate::facts::Bath;
use crate::finding::{Grade, slug};
use crate::notebook::{Notebook, Role};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::grams;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::{ascorbic_acid, contents, moles};

pub(super) const RULE: Rule = Rule {
    name: slug::CAUSTIC_USED_UP,
    grade: Grade::Fault,
    group: Group::Baths,
    looks_for: "A developer with caustic and vitamin C, and less than one mole of caustic to a mole of vitamin C.",
    why: "All the caustic goes into making ascorbate, and the bath comes out acid. A gram more and it is \
              fierce: 2 g with 16 g of vitamin C give pH 4.3, 4 g give 10.5.",
    instead: "Use sodium ascorbate with washing soda; caustic is a knife edge here.",
    threshold: Some("Caustic over vitamin C below 1, mole by mole."),
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
      NaOH: 2 g
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
acknowledge:
  caustic-present: shown for the arithmetic
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
    let style = context.notebook.settings.style;
    for mixture in context.mixed {
        let bath = &*mixture.bath;
        let judged = mixture.judged(|bath| used_up(context.notebook, bath).map(|_| RULE.grade));
        let (Some(_), Some(acid)) = (judged, used_up(context.notebook, bath)) else {
            continue;
        };
        let caustic = bath.all(Property::Caustic);
        if let Some(span) = mixture.point(caustic.map(|dose| dose.amount.span)) {
            report.add(
                report
                    .finding(span, "the vitamin C uses up all of this caustic: the bath comes out acid")
                    .help(format!(
                        "it takes {} of caustic soda to neutralise it; better use sodium ascorbate and washing soda",
                        grams(acid * 39.997, style)
                    )),
            );
        }
    }
}

/// Moles of vitamin C that use up all caustic of a developer.
fn used_up(notebook: &Notebook, bath: &Bath) -> Option<f64> {
    let other = [Property::Carbonate, Property::Borate, Property::Phosphate]
        .into_iter()
        .any(|alkali| bath.first(alkali).is_some());
    if bath.role() != Some(Role::Developer) || other || bath.first(Property::Caustic).is_none() {
        return None;
    }
    let held = contents(notebook, bath)?;
    let hydroxide = moles(&held, |formula| {
        f64::from(u8::from(
            formula.elements().len() == 3 && formula.count("O") == 1 && formula.count("C") == 0,
        ))
    });
    let acid = moles(&held, ascorbic_acid);
    (hydroxide.best > 0.0 && hydroxide.best < acid.best).then_some(acid.best)
}
