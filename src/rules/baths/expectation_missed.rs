//! A fact outside of what the author expects.

use crate::facts::{Fact, Measure};
use crate::finding::{Grade, slug};
use crate::notebook::nearest;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::told::{PH_CAUSES, told};
use crate::units::{Amount, Dimension, Range};

pub(super) const RULE: Rule = Rule {
    name: slug::EXPECTATION_MISSED,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A fact of a recipe that has nothing in common with the range that `expect` gives for it.",
    why: "Whoever wrote the recipe knew what should come out. Where the amounts give something else, one of the two is wrong, and in the tray it is too late to ask which.",
    instead: "Look where the fact comes from with `trayside facts --why`, and correct the amounts or the expectation.",
    threshold: Some("The computed range and the expected one do not overlap."),
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
expect:
  pH: 8.0–8.5
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
expect:
  pH: 9.8–10.6
keeps: 1 h
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, bath) in context.baths() {
        for (name, expected) in &bath.recipe.expect {
            let Some(span) = place(block, [expected.span]) else {
                continue;
            };
            let Some(fact) = context.facts.get(&block.id, &name.value) else {
                let names = context
                    .facts
                    .of_block(&block.id)
                    .iter()
                    .map(|fact| fact.name.as_ref());
                let mut finding =
                    report.finding(name.span, format!("this recipe has no fact `{}`", name.value));
                if let Some(near) = nearest(&name.value, names) {
                    finding = finding
                        .help(format!("did you mean `{near}`?"))
                        .replace(name.span, near);
                }
                report.add(finding);
                continue;
            };
            let Some(computed) = fact.range() else { continue };
            let Some(wanted) = in_unit_of(fact, &expected.value) else {
                let message = format!(
                    "`{}` is not measured in {}",
                    name.value,
                    expected.value.dimension.with_article()
                );
                report.add(
                    report
                        .finding(span, message)
                        .help(format!("it is {} here", fact.text(style))),
                );
                continue;
            };
            let explained = fact.name == "pH" && told(report, block, PH_CAUSES);
            if computed.overlaps(wanted) || explained {
                continue;
            }
            let message = format!(
                "`{}` comes out as {}, not as the {} that is expected",
                name.value,
                fact.text(style),
                expected.value.show(style)
            );
            report.add(report.finding(span, message).help(format!(
                "see `trayside facts --why {}.{}`, then correct the amounts or the expectation",
                block.id, fact.name
            )));
        }
    }
}

/// What is expected in the unit of the fact; none where the two cannot be compared.
fn in_unit_of(fact: &Fact, expected: &Amount) -> Option<Range> {
    let plain = matches!(expected.dimension, Dimension::Number | Dimension::Count);
    let factor = match (fact.measure, expected.dimension) {
        (Measure::Amount(dimension, _), own) if dimension == own => 1.0,
        // `pH: 9.5` repeats its own unit in its name.
        (Measure::Amount(Dimension::PH | Dimension::Share, _), _) if plain => 1.0,
        (Measure::Plain("ml", _), Dimension::Volume) => 1000.0,
        (Measure::Plain("mmol/l", _), Dimension::Molarity) => 1000.0,
        (Measure::Plain("ml/l", _), Dimension::VolumeFraction) => 1000.0,
        (Measure::Plain("mol/kg per pH", _), Dimension::Molality) => 1.0,
        (Measure::Plain(..), _) if plain => 1.0,
        _ => return None,
    };
    Some(expected.range.scale(factor))
}
