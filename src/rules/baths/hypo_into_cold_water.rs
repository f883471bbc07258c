//! Hypo crystals into cold water.

use crate::finding::{Grade, slug};
use crate::notebook::Water;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::HYPO_INTO_COLD_WATER,
    grade: Grade::Hint,
    group: Group::Baths,
    looks_for: "Hypo crystals dissolved in water below 32 °C.",
    why: "They chill the water by ten degrees and more as they dissolve, and then hardly dissolve at all.",
    instead: "Start at 40 to 45 °C and let it cool.",
    threshold: Some("Below 32 °C."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: plain-hypo
role: fixer
makes: 1 l
water: 700 ml at 20 °C
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```
",
        ),
        Example::good(
            "
```recipe
id: plain-hypo
role: fixer
makes: 1 l
water: 700 ml at 45 °C
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, bath) in context.baths() {
        for dose in bath.all(Property::Thiosulfate) {
            if dose.formula().is_none_or(|formula| formula.water() == 0) {
                continue;
            }
            let recipe = &bath.recipe;
            let part = recipe.parts.iter().find(|part| {
                dose.part.is_some() && part.name.get().map(|name| &name.value) == dose.part.as_ref()
            });
            let water: Option<&Water> = part.map_or(&recipe.water, |part| &part.water).get();
            let Some(at) = water.and_then(|water| water.at.as_ref()) else {
                continue;
            };
            if at.range.best >= 32.0 {
                continue;
            }
            if let Some(span) = place(block, water.map(|water| water.amount.span)) {
                report.add(
                    report
                        .finding(span, "hypo crystals chill the water they dissolve in")
                        .help("start with water of 40 to 45 °C"),
                );
            }
        }
    }
}
