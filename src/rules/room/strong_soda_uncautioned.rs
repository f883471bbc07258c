//! Soda strong enough to irritate, without a word of caution.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::{carbonate, contents, moles};

pub(super) const RULE: Rule = Rule {
    name: slug::STRONG_SODA_UNCAUTIONED,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A bath with 0.8 mol of carbonate in a litre or more that has no `cautions` of its own.",
    why: "From 0.8 mol in a litre on, sodium carbonate solution is an irritant to the eyes: 84.8 g anhydrous, \
              99 g monohydrate or 229 g of crystals. Below that it is of low hazard.",
    instead: "Add a caution about eyes and goggles, or use less soda: a developer works with half as much.",
    threshold: Some("Carbonate from 0.8 mol/l on."),
    sureness: Sureness::Published,
    sources: &["CLEAPSS student safety sheet 33, sodium carbonate"],
    examples: &[
        Example::bad(
            "
```recipe
id: a-stock
role: stock
makes: 1 l
water: 800 ml
add:
  washing soda, anhydrous: 100 g
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
  washing soda, anhydrous: 100 g
cautions:
  - Stings the eyes. Goggles on.
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
  washing soda, anhydrous: 50 g
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

/// Moles in a litre from which on carbonate irritates.
const IRRITATES: f64 = 0.8;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, bath) in context.baths() {
        if !bath.recipe.cautions.is_empty() {
            continue;
        }
        let (Some(held), Some(litres)) = (contents(context.notebook, bath), bath.litres()) else {
            continue;
        };
        let strength = moles(&held, carbonate).best / litres.best;
        if strength < IRRITATES || !strength.is_finite() {
            continue;
        }
        let sodas = bath.all(Property::Carbonate).map(|dose| dose.amount.span);
        if let Some(span) = place(block, sodas) {
            let message = format!(
                "{} mol of carbonate in a litre irritate the eyes, and no caution says so",
                number(strength, 2, style)
            );
            report.add(
                report
                    .finding(span, message)
                    .help("add `cautions:` with `Stings the eyes. Goggles on.`, or use less soda"),
            );
        }
    }
}
