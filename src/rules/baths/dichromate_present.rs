//! A dichromate or chromate in any bath.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::DICHROMATE_PRESENT,
    grade: Grade::Hazard,
    group: Group::Baths,
    looks_for: "A dichromate or chromate, in any amount.",
    why: "They cause cancer and allergies, by skin and by dust, and poison water. Nothing in this craft needs \
              them.",
    instead: "Leave it out. Copper sulfate with salt, or ferricyanide with bromide, bleaches as well.",
    threshold: Some("Any amount."),
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
  potassium dichromate: 5 g
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
        if let Some(dose) = mixture.may_hold(context, Property::Dichromate)
            && let Some(span) = mixture.at([dose])
        {
            report.add(
                report
                    .finding(span, format!("`{}` causes cancer", dose.name.value))
                    .help("leave it out: ferricyanide with bromide bleaches as well"),
            );
        }
    }
}
