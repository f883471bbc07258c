//! An ammonium salt and a strong alkali in one bath.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::AMMONIA_FREED,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "An ammonium salt, such as rapid fixer, together with washing soda or caustic.",
    why: "The alkali frees ammonia. It stings eyes and throat in a small room, and the ammonium is lost.",
    instead: "Use the sodium salt instead, or leave the alkali out.",
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
  NH4Cl: 5 g
  washing soda, anhydrous: 30 g
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
  NaCl: 5 g
  washing soda, anhydrous: 30 g
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in mixtures(context) {
        let first = mixture.may_hold(context, Property::Ammonium);
        let second = mixture
            .may_hold(context, Property::Caustic)
            .or_else(|| mixture.may_hold(context, Property::Carbonate));
        if let (Some(first), Some(second)) = (first, second)
            && first.name != second.name
            && let Some(span) = mixture.at([first, second])
        {
            let message = format!(
                "`{}` and `{}` give off ammonia together",
                first.name.value, second.name.value
            );
            report.add(
                report
                    .finding(span, message)
                    .help("use the sodium salt in the place of the ammonium one")
                    .relate(second.name.span, "this alkali frees it"),
            );
        }
    }
}
