//! A vitamin C developer said to keep too long.

use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::WORKING_LIFE_LONG,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A mixed developer with vitamin C or plants and soda that is said to keep more than an hour in the \
              tray.",
    why: "In one trial with saturated soda, blacks were weaker after two hours and gone after two \
              and a half. Nothing shows in the tray.",
    instead: "Write `keeps: 1 h` and mix fresh. If your own strips show more, acknowledge this with them as the \
              reason.",
    threshold: Some("Above one hour a doubt, above two a fault."),
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
  - make up
keeps: 90 min
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
keeps: 45 min
```
",
        ),
    ],
    check: Some(check),
};

const HOUR: f64 = 3600.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, bath) in context.baths() {
        let agent = bath.doses.iter().find(|dose| {
            dose.is(Property::Ascorbate) || dose.is(Property::Phenolic) && dose.is(Property::Plant)
        });
        let alkali = bath.first(Property::Carbonate).or(bath.first(Property::Caustic));
        let (Some(Role::Developer), Some(agent), Some(_), Some(life)) =
            (bath.role(), agent, alkali, bath.recipe.keeps.working())
        else {
            continue;
        };
        // Sulfite keeps air off.
        if bath.first(Property::Sulfite).is_some() {
            continue;
        }
        let grade = if life.range.best > 2.0 * HOUR {
            Grade::Fault
        } else if life.range.best > HOUR {
            Grade::Doubt
        } else {
            continue;
        };
        if let Some(span) = place(block, [life.span]) {
            let message = format!(
                "{} is too long for `{}` in soda: air has eaten it by then",
                life.show(style),
                agent.name.value
            );
            report.add(
                report
                    .graded(grade, span, message)
                    .help("write `keeps: 1 h` and mix it fresh"),
            );
        }
    }
}
