//! Ferricyanide and a strong acid in one bath.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::FERRICYANIDE_WITH_ACID,
    grade: Grade::Hazard,
    group: Group::Baths,
    looks_for: "Hexacyanoferrate, the bleach of toning baths, together with a concentrated acid.",
    why: "Strong acid and heat can free hydrogen cyanide from it.",
    instead: "Use it in plain water, with bromide or hypo, never with a strong acid.",
    threshold: Some("Any amount of both."),
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
  potassium ferricyanide: 5 g
  HCl: 5 g
acknowledge:
  acid-concentrated: shown here for what it does to ferricyanide
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
  potassium ferricyanide: 5 g
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in mixtures(context) {
        let first = mixture.may_hold(context, Property::Ferricyanide);
        let second = mixture.may_burn(context);
        if let (Some(first), Some(second)) = (first, second)
            && first.name != second.name
            && let Some(span) = mixture.at([first, second])
        {
            let message = format!(
                "`{}` and the strong acid in `{}` can make hydrogen cyanide",
                first.name.value, second.name.value
            );
            report.add(
                report
                    .finding(span, message)
                    .help("leave the acid out")
                    .relate(second.name.span, "this acid is strong"),
            );
        }
    }
}
