//! An oven or a boiling pot with minors in the room.

use crate::finding::{Grade, slug};
use crate::notebook::Verb;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::HEAT_WITH_MINORS,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A recipe that bakes or boils, in a notebook that says `minors: yes`, and has no `cautions`.",
    why: "Ovens and boiling water are what injures most in kitchens.",
    instead: "An adult does it, beforehand and with nothing else to do. Say so under `cautions`.",
    threshold: None,
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
title: A test
zone: Europe/London
people:
  count: 6
  minors: yes
---8<---
```recipe
id: baked-soda
role: stock
makes: 1 l
water: 800 ml
add:
  washing soda, anhydrous: 50 g
steps:
  - bake: 2 h at 160 °C
  - dissolve: 5 min
keeps: 4 weeks
```
",
        ),
        Example::good(
            "
title: A test
zone: Europe/London
people:
  count: 6
  minors: no
---8<---
```recipe
id: baked-soda
role: stock
makes: 1 l
water: 800 ml
add:
  washing soda, anhydrous: 50 g
steps:
  - bake: 2 h at 160 °C
  - dissolve: 5 min
keeps: 4 weeks
```
",
        ),
        Example::good(
            "
title: A test
zone: Europe/London
people:
  count: 6
  minors: yes
---8<---
```recipe
id: baked-soda
role: stock
makes: 1 l
water: 800 ml
add:
  washing soda, anhydrous: 50 g
steps:
  - bake: 2 h at 160 °C
  - dissolve: 5 min
cautions:
  - An adult does the baking, the evening before.
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    if context.notebook.settings.minors() != Some(true) {
        return;
    }
    for (block, bath) in context.baths() {
        if !bath.recipe.cautions.is_empty() {
            continue;
        }
        let hot = bath
            .recipe
            .all_steps()
            .find(|step| matches!(step.verb, Verb::Bake | Verb::Boil));
        let Some(hot) = hot else { continue };
        if let Some(span) = place(block, [hot.span]) {
            let message = format!(
                "`{}` is an adult's job, and minors are in the room",
                hot.verb.word()
            );
            report.add(
                report
                    .finding(span, message)
                    .help("write under `cautions:` who does it, and when"),
            );
        }
    }
}
