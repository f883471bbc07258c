//! A solution without its strength.

use crate::facts::Dose;
use crate::finding::{Grade, slug};
use crate::rules::burning_acid::holds_acetic;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::strength::unsaid;

pub(super) const RULE: Rule = Rule {
    name: slug::STRENGTH_MISSING,
    grade: Grade::Doubt,
    group: Group::Materials,
    looks_for: "A material other than vinegar that is sold in several strengths and does not say which.",
    why: "What a measure of it brings is not known, so nothing about the bath can be computed or repeated.",
    instead: "Copy the per cent from the label and say what it is counted in: `hydrogen peroxide 3 % w/w`.",
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
  hydrogen peroxide: 20 ml
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
  hydrogen peroxide 3 % w/w: 20 ml
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in context.mixed {
        let open =
            |dose: &Dose| unsaid(dose).is_some_and(|material| !holds_acetic(context.notebook, material));
        for dose in mixture.spoken_of(open) {
            if let Some(span) = place(mixture.block, [dose.name.span]) {
                let name = &dose.name.value;
                report.add(
                    report
                        .finding(span, format!("`{name}` does not say how strong it is"))
                        .help(format!(
                            "copy the per cent from the label, such as `{name} 10 % w/w`"
                        )),
                );
            }
        }
    }
}
