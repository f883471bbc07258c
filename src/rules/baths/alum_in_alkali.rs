//! Alum in a bath that is not acid.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::ALUM_IN_ALKALI,
    grade: Grade::Hint,
    group: Group::Baths,
    looks_for: "An alum hardener in one bath with an alkali.",
    why: "Above pH 6.5 alum falls out as a jelly that sticks to sheets, and no longer hardens.",
    instead: "Use it in a bath of its own, kept slightly acid, with a rinse before and after.",
    threshold: None,
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: a-stock
role: stock
makes: 1 l
water: 800 ml
add:
  potassium alum: 10 g
  washing soda, anhydrous: 10 g
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
  potassium alum: 10 g
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, bath) in context.baths() {
        if let (Some(alum), Some(alkali)) = (bath.first(Property::Hardener), bath.first(Property::Alkali))
            && let Some(span) = place(block, [alum.name.span, alkali.name.span])
        {
            let message = format!(
                "`{}` makes `{}` fall out as jelly",
                alkali.name.value, alum.name.value
            );
            report.add(
                report
                    .finding(span, message)
                    .help("keep alum in a bath of its own, slightly acid")
                    .relate(alkali.name.span, "this is the alkali"),
            );
        }
    }
}
