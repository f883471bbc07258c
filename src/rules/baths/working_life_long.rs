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
    looks_for: "A mixed developer with vitamin C or plants, or what is made of them, and soda that is said to keep more \
              than an hour.",
    why: "In one trial with saturated soda, blacks were weaker after two hours and gone after two \
              and a half. Nothing shows in the tray.",
    instead: "Write `keeps: 1 h` and mix fresh. If your own strips show more, acknowledge this with them as the \
              reason.",
    threshold: Some("Above one hour a doubt; above two a fault, in a closed bottle a doubt."),
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
keeps:
  tray: 1 h
  bottle: 3 days
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
            dose.is(Property::Ascorbate) || dose.is(Property::Phenolic) && dose.is(Property::Reductant)
        });
        let alkali = bath.first(Property::Carbonate).or(bath.first(Property::Caustic));
        let (Some(Role::Developer), Some(agent), Some(_)) = (bath.role(), agent, alkali) else {
            continue;
        };
        // Sulfite keeps air off.
        if bath.first(Property::Sulfite).is_some() {
            continue;
        }
        let keeps = &bath.recipe.keeps;
        let lives = [
            keeps.working().map(|life| (life, Grade::Fault)),
            // A full, closed bottle keeps most of the air away.
            keeps.bottle.get().map(|life| (life, Grade::Doubt)),
        ];
        for (life, at_most) in lives.into_iter().flatten() {
            let grade = if life.range.best > 2.0 * HOUR {
                at_most
            } else if life.range.best > HOUR {
                Grade::Doubt
            } else {
                continue;
            };
            let Some(span) = place(block, [life.span]) else {
                continue;
            };
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
