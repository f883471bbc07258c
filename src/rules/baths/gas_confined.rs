//! Gas where it cannot get out.

use crate::chem::ideal_gas_volume;
use crate::finding::{Grade, slug};
use crate::notebook::Gas;
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::place::{hazard_place, place};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::told::told;
use crate::units::scalar::Temperature;

pub(super) const RULE: Rule = Rule {
    name: slug::GAS_CONFINED,
    grade: Grade::Hazard,
    group: Group::Baths,
    looks_for: "A bath that gives off carbon dioxide and is mixed in a closed vessel, or said to hold all of it while it presses out with more than one atmosphere.",
    why: "A cap over a fizzing bath is a cork. What is left of the bottle flies, and soda with it.",
    instead: "Mix in an open jug of three times the volume, and cap the bath only when it has been still for half an hour.",
    threshold: Some(
        "In a closed vessel, more than 50 ml of gas where the soda is poured into the acid. More than one atmosphere over a bath with `gas: held` is a doubt.",
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
    vessel: closed bottle
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

/// Gas that a cap bears, in millilitres: a fraction of the headspace of a small bottle (assumed).
const BORNE: f64 = 50.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, bath) in context.baths() {
        let Ok(solution) = context.facts.chemistry.solution(&block.id) else {
            continue;
        };
        if told(report, block, &[slug::DRY_PREMIX]) {
            continue;
        }
        let celsius = Temperature::from_celsius(solution.composition.celsius);
        let worst = ideal_gas_volume(solution.gas_at_worst, celsius).millilitres();
        let closed = bath
            .recipe
            .all_steps()
            .filter_map(|step| step.vessel.get())
            .find(|vessel| is_closed(&vessel.value));
        if let Some(vessel) = closed.filter(|_| worst > BORNE) {
            let span = hazard_place(block, bath, [vessel.span]);
            let message = format!(
                "up to {} ml of gas may be set free in `{}`",
                number(worst, 2, style),
                vessel.value
            );
            report.add(
                report
                    .finding(span, message)
                    .help("mix in an open jug of three times the volume; never a lid"),
            );
            continue;
        }
        let held = bath.recipe.gas.get().filter(|gas| gas.value.mode == Gas::Held);
        let pressure = solution.band.equilibrium.pco2().atmospheres();
        if let Some(gas) = held.filter(|_| pressure > 1.0)
            && let Some(span) = place(block, [gas.span])
        {
            let message = format!(
                "held in, the gas presses with {} atmospheres: it foams, and a cap would burst",
                number(pressure, 2, style)
            );
            report.add(
                report
                    .graded(Grade::Doubt, span, message)
                    .help("write `gas: fizzed`, and leave it open"),
            );
        }
    }
}

/// Whether a vessel is one that is closed while something is mixed in it.
fn is_closed(words: &str) -> bool {
    let words = words.to_lowercase();
    let says = |word: &str| words.split(|c: char| !c.is_alphanumeric()).any(|own| own == word);
    !says("open")
        && ["bottle", "jar", "capped", "closed", "lid", "stoppered", "sealed"]
            .into_iter()
            .any(says)
}
