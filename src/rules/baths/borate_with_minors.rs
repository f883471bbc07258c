//! Borax or boric acid with minors in the room.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::BORATE_WITH_MINORS,
    grade: Grade::Hazard,
    group: Group::Baths,
    looks_for: "Borax, boric acid or another borate in a bath of a notebook that says `minors: yes`.",
    why: "In the European Union borates are classed as toxic to reproduction, category 1B: they may damage \
              fertility or the unborn child. Schools leave them out.",
    instead: "Use washing soda in the place of borax, and citric acid in the place of boric acid.",
    threshold: Some("Any amount."),
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
id: a-stock
role: stock
makes: 1 l
water: 800 ml
add:
  borax: 10 g
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
id: a-stock
role: stock
makes: 1 l
water: 800 ml
add:
  borax: 10 g
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
    for mixture in mixtures(context) {
        if let Some(borate) = mixture.may_hold(context, Property::Borate)
            && let Some(span) = mixture.at([borate])
        {
            let message = format!(
                "`{}` may damage fertility or the unborn child, and minors are in the room",
                borate.name.value
            );
            report.add(
                report
                    .finding(span, message)
                    .help("use washing soda in the place of borax, citric acid in the place of boric acid"),
            );
        }
    }
}
