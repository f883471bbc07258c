//! A vitamin C developer said to keep too long.

use crate::facts::{Bath, Dose};
use crate::finding::{Grade, slug};
use crate::notebook::{Figure, Role};
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
    for mixture in context.mixed {
        let bath = &*mixture.bath;
        let Some(agent) = eaten_by_air(bath) else { continue };
        let worse = mixture.judged(|bath| {
            eaten_by_air(bath)?;
            too_long(bath).map(|(_, grade)| grade).min()
        });
        if worse.is_none() {
            continue;
        }
        let message = |life: &Figure| {
            format!(
                "{} is too long for `{}` in soda: air has eaten it by then",
                life.show(style),
                agent.name.value
            )
        };
        if mixture.is_batch() {
            let longest = too_long(bath).min_by_key(|(_, grade)| *grade);
            let (Some((life, grade)), Some(span)) = (longest, mixture.point([agent.name.span])) else {
                continue;
            };
            report.add(
                report
                    .graded(grade, span, message(life))
                    .help("use this batch within an hour"),
            );
            continue;
        }
        for (life, grade) in too_long(bath) {
            if let Some(span) = place(mixture.block, [life.span]) {
                report.add(
                    report
                        .graded(grade, span, message(life))
                        .help("write `keeps: 1 h` and mix it fresh"),
                );
            }
        }
    }
}

/// The agent that air eats in a developer with soda and nothing that keeps air off.
fn eaten_by_air(bath: &Bath) -> Option<&Dose> {
    let alkali = bath.first(Property::Carbonate).or(bath.first(Property::Caustic));
    // Sulfite keeps air off.
    if bath.role() != Some(Role::Developer) || alkali.is_none() || bath.first(Property::Sulfite).is_some() {
        return None;
    }
    bath.doses.iter().find(|dose| {
        dose.is(Property::Ascorbate) || dose.is(Property::Phenolic) && dose.is(Property::Reductant)
    })
}

/// The times that it is said to keep and that are too long for such a bath.
fn too_long(bath: &Bath) -> impl Iterator<Item = (&Figure, Grade)> {
    let keeps = &bath.recipe.keeps;
    let lives = [
        keeps.working().map(|life| (life, Grade::Fault)),
        // A full, closed bottle keeps most of the air away.
        keeps.bottle.get().map(|life| (life, Grade::Doubt)),
    ];
    lives.into_iter().flatten().filter_map(|(life, at_most)| {
        let hours = life.range.best / HOUR;
        let grade = if hours > 2.0 { at_most } else { Grade::Doubt };
        (hours > 1.0).then_some((life, grade))
    })
}
