//! Caustic in a bath.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::told::told;

pub(super) const RULE: Rule = Rule {
    name: slug::CAUSTIC_PRESENT,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "Caustic soda, caustic potash or ash lye in any bath.",
    why: "It blinds: a splash in the eye is an accident that is not made good. It also softens gelatin, and \
              with vitamin C a gram more or less is the difference between nothing and fog.",
    instead: "Use washing soda. If it must be caustic: goggles, the solid into cold water, nobody young in the \
              room.",
    threshold: Some("Any amount; a hazard where minors are in the room."),
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
      NaOH: 4.8 g
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
keeps: 1 h
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let minors = context.notebook.settings.minors() == Some(true);
    for mixture in mixtures(context) {
        let caustic = mixture.bath.first(Property::Caustic);
        let Some(caustic) = caustic else { continue };
        let Some(span) = mixture.at([caustic]) else {
            continue;
        };
        if told(report, mixture.block, &[slug::CAUSTIC_INTO_WARM]) {
            continue;
        }
        let (grade, message) = if minors {
            let message = format!(
                "`{}` burns eyes and skin, and minors are in the room",
                caustic.name.value
            );
            (Grade::Hazard, message)
        } else {
            (
                Grade::Doubt,
                format!("`{}` burns eyes and skin", caustic.name.value),
            )
        };
        report.add(
            report
                .graded(grade, span, message)
                .help("use `washing soda, anhydrous`; if it stays, goggles, and the solid into cold water"),
        );
    }
}
