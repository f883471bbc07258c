//! A sulfide and an acid in one bath.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::SULFIDE_WITH_ACID,
    grade: Grade::Hazard,
    group: Group::Baths,
    looks_for: "A sulfide, such as the one in sepia toners, together with an acid.",
    why: "Acid frees hydrogen sulfide: it smells of rotten eggs until it has numbed the nose, and then it \
              kills. It also fogs all paper near it.",
    instead: "Keep sulfide toners away from every acid, rinse long between, and work outdoors.",
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
  Na2S: 5 g
  citric acid, anhydrous: 10 g
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
  Na2S: 5 g
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in mixtures(context) {
        let first = mixture.may_hold(context, Property::Sulfide);
        let second = mixture.may_hold(context, Property::Acid);
        if let (Some(first), Some(second)) = (first, second)
            && first.name != second.name
            && let Some(span) = mixture.at([first, second])
        {
            let message = format!(
                "`{}` and the acid in `{}` make hydrogen sulfide, a deadly gas",
                first.name.value, second.name.value
            );
            report.add(
                report
                    .finding(span, message)
                    .help("leave one of the two out")
                    .relate(second.name.span, "this is an acid"),
            );
        }
    }
}
