//! Lemon juice as a stop, never measured.

use crate::facts::Dose;
use crate::finding::{Grade, slug};
use crate::notebook::{Body, Role};
use crate::pantry::{Form, Property};
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::JUICE_UNMEASURED,
    grade: Grade::Doubt,
    group: Group::Materials,
    looks_for: "A stop made with fruit juice, of which no batch has a measured pH.",
    why: "Fresh lemon juice holds about 48 g of citric acid in a litre, bottled 34 to 39, and a lemon may hold \
              more or less. Nobody knows how strong such a stop is.",
    instead: "Dip a strip into it and write the reading into the batch: it should be between 2 and 4.5. Or use \
              citric acid, 10 g in a litre.",
    threshold: None,
    sureness: Sureness::Published,
    sources: &["Penniston et al. 2008, Journal of Endourology 22(3), 567 (citric acid in juices)"],
    examples: &[
        Example::bad(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  lemon juice: 250 ml
keeps: 12 h
```
",
        ),
        Example::good(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  lemon juice: 250 ml
keeps: 12 h
```

```batch
id: juice-stop
of: weak-stop
made: 2031-05-02 18:00
volume: 1 l
measured:
  pH: 2.4
  with: strip
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in context.mixed {
        let block = mixture.block;
        if mixture.bath.role() != Some(Role::Stop) {
            continue;
        }
        let Some(juice) = mixture.spoken_of(is_juice).next() else {
            continue;
        };
        let measured = match &block.body {
            Body::Batch(batch) => !batch.measured.is_absent(),
            _ => context.notebook.batches().any(|(_, batch)| {
                batch.of.get().is_some_and(|of| of.value == block.id) && !batch.measured.is_absent()
            }),
        };
        if measured {
            continue;
        }
        if let Some(span) = place(block, [juice.name.span]) {
            let message = format!("how acid `{}` is differs from fruit to fruit", juice.name.value);
            report.add(report.finding(span, message).help(
                "measure a batch with a strip and note `measured:` there, or use `citric acid, anhydrous: 10 g` in a litre",
            ));
        }
    }
}

fn is_juice(dose: &Dose) -> bool {
    let form = dose.material().and_then(|material| material.form);
    form == Some(Form::Liquid) && dose.is(Property::Acid) && dose.is(Property::Plant)
}
