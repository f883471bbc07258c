//! Chlorine bleach and ammonia in one bath.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::HYPOCHLORITE_WITH_AMMONIA,
    grade: Grade::Hazard,
    group: Group::Baths,
    looks_for: "Chlorine bleach together with ammonia or an ammonium salt.",
    why: "They make chloramines, gases that burn eyes and lungs. Rapid fixers hold ammonium too.",
    instead: "Leave bleach out of the darkroom.",
    threshold: Some("Any amount of both."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: floor-cleaner
role: stock
makes: 1 l
add:
  household bleach 4 % w/v: 50 ml
  NH4Cl: 5 g
keeps: 1 h
```
",
        ),
        Example::good(
            "
```recipe
id: ammonium-stock
role: stock
makes: 1 l
water: 800 ml
add:
  NH4Cl: 5 g
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in mixtures(context) {
        let bleach = mixture.may_hold(context, Property::Hypochlorite);
        let ammonia = mixture
            .may_hold(context, Property::Ammonia)
            .or_else(|| mixture.may_hold(context, Property::Ammonium));
        if let (Some(bleach), Some(ammonia)) = (bleach, ammonia)
            && let Some(span) = mixture.at([bleach, ammonia])
        {
            let message = format!(
                "`{}` and `{}` must never meet: together they give off chloramines",
                bleach.name.value, ammonia.name.value
            );
            report.add(
                report
                    .finding(span, message)
                    .help("leave the bleach out: these gases burn eyes and lungs")
                    .relate(ammonia.name.span, "this holds ammonia or ammonium"),
            );
        }
    }
}
