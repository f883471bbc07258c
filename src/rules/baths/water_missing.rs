//! A bath, or a part of one, without any water.

use crate::finding::{Grade, slug};
use crate::notebook::{Slot, Water};
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::source::Span;

pub(super) const RULE: Rule = Rule {
    name: slug::WATER_MISSING,
    grade: Grade::Fault,
    group: Group::Baths,
    looks_for: "A recipe whose `water` or `makes`, or whose part's, is nothing.",
    why: "Powders without water are no bath. Nothing can be computed of them: no pH, no strength, no time.",
    instead: "Say how much water is put in, or leave `water` out and say what the bath `makes`.",
    threshold: None,
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: dry-stop
role: stop
makes: 1 l
water: 0 ml
add:
  citric acid, anhydrous: 12 g
use:
  time: 30 s
keeps: 1 day
```
",
        ),
        Example::good(
            "
```recipe
id: citrus-stop
role: stop
makes: 1 l
water: 800 ml
add:
  citric acid, anhydrous: 12 g
use:
  time: 30 s
keeps: 1 day
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, bath) in context.baths() {
        let recipe = &bath.recipe;
        let dry = |water: &Slot<Water>| -> Option<Span> {
            let amount = &water.get()?.amount;
            (amount.range.high <= 0.0).then_some(amount.span)
        };
        let waters = [dry(&recipe.water)].into_iter();
        let waters = waters.chain(recipe.parts.iter().map(|part| dry(&part.water)));
        let makes = [&recipe.makes]
            .into_iter()
            .chain(recipe.parts.iter().map(|part| &part.makes));
        let nothing = makes.filter_map(|makes| {
            let makes = makes.get()?;
            (makes.range.high <= 0.0).then_some(makes.span)
        });
        for (span, message) in waters
            .flatten()
            .map(|span| (span, "there is no water in it to dissolve anything"))
            .chain(nothing.map(|span| (span, "a bath of nothing holds nothing")))
        {
            if let Some(span) = place(block, [span]) {
                report.add(
                    report
                        .finding(span, message)
                        .help("say how much water is put in, or leave the key out"),
                );
            }
        }
    }
}
