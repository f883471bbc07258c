//! Baking soda baked into washing soda, and not weighed after.

use crate::finding::{Grade, slug};
use crate::notebook::Verb;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::grams;
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::Range;

pub(super) const RULE: Rule = Rule {
    name: slug::BAKED_UNWEIGHED,
    grade: Grade::Hint,
    group: Group::Baths,
    looks_for: "A recipe that bakes baking soda.",
    why: "Half baked, 50 g with 16 g of vitamin C give pH 8.9 in the place of 10.1. Only the balance shows \
              when it is done: it loses 36.9 % of its mass.",
    instead: "Weigh before and after, and bake until it gets no lighter: 100 g become 63.1 g. Then write it as \
              `washing soda, anhydrous`.",
    threshold: None,
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: oven-soda
role: stock
makes: 1 l
water: 800 ml
add:
  baking soda: 50 g
steps:
  - bake: 2 h at 160 °C
  - dissolve: 5 min
keeps: 4 weeks
```
",
        ),
        Example::good(
            "
```recipe
id: a-stock
role: stock
makes: 1 l
water: 800 ml
add:
  washing soda, anhydrous: 31.5 g
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

/// What is left of a gram of baking soda, baked through: half a mole of carbonate for each.
const LEFT: f64 = 105.988 / (2.0 * 84.007);

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, bath) in context.baths() {
        let soda = bath
            .first(Property::Bicarbonate)
            .filter(|_| bath.recipe.does(Verb::Bake));
        let Some(soda) = soda.filter(|soda| soda.formula().is_some_and(|formula| formula.count("Na") == 1))
        else {
            continue;
        };
        let Some(weight) = soda.grams(bath.litres().unwrap_or(Range::exact(1.0))) else {
            continue;
        };
        if let Some(span) = place(block, [soda.amount.span]) {
            report.add(
                report
                    .finding(span, "only the balance shows when baking soda is baked through")
                    .help(format!(
                        "bake until {} have become {}, and write that as `washing soda, anhydrous`",
                        grams(weight.best, style),
                        grams(weight.best * LEFT, style)
                    )),
            );
        }
    }
}
