//! A chemical formula with a slip in it.

use crate::facts::Known;
use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::FORMULA_MALFORMED,
    grade: Grade::Fault,
    group: Group::Materials,
    looks_for: "What looks like a chemical formula and is none.",
    why: "A formula is read exactly: a wrong letter is another substance or none.",
    instead: "Write it with its elements and counts, such as `Na2CO3` or `Na2CO3·10H2O`.",
    threshold: None,
    sureness: Sureness::Language,
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
  Na2CQ3: 36 g
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
  Na2CO3: 36 g
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in context.mixed {
        for dose in mixture.spoken_of(|dose| {
            matches!(
                dose.known,
                Known::Unknown {
                    malformed: Some(_),
                    ..
                }
            )
        }) {
            if let Known::Unknown {
                malformed: Some(why), ..
            } = &dose.known
                && let Some(span) = place(mixture.block, [dose.name.part(why.range.clone())])
            {
                let message = format!("`{}` is no chemical formula: {why}", dose.name.value);
                report.add(
                    report
                        .finding(span, message)
                        .help("write it as `Na2CO3` or `Na2CO3·10H2O`, or write the material's name"),
                );
            }
        }
    }
}
