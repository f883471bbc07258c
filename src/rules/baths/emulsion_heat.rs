//! A warm alkaline bath.

use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::EMULSION_HEAT,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A developer with soda used above 30 °C, or with caustic above 24 °C.",
    why: "Warm alkali swells gelatin until it slides off the sheet.",
    instead: "Develop at 20 to 24 °C, longer where it is slow.",
    threshold: Some("Above 30 °C with carbonate, above 24 °C with caustic."),
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
use:
  temperature: 35 °C
  time: 2 min
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
use:
  temperature: 24 °C
  time: 2 min
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
        let (Some(Role::Developer), Some(warm)) = (bath.role(), bath.recipe.usage.temperature.get()) else {
            continue;
        };
        let limit = if bath.first(Property::Caustic).is_some() {
            24.0
        } else if bath.first(Property::Carbonate).is_some() {
            30.0
        } else {
            continue;
        };
        if warm.range.high <= limit + 1e-9 {
            continue;
        }
        if let Some(span) = place(block, [warm.span]) {
            let message = format!("{} in this alkali loosens the layer", warm.show(style));
            report.add(report.finding(span, message).help(format!(
                "stay at {} °C or below; 20 to 24 °C is usual",
                number(limit, 2, style)
            )));
        }
    }
}
