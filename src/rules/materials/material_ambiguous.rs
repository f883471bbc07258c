//! A word that people use for several materials.

use crate::facts::Known;
use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::MATERIAL_AMBIGUOUS,
    grade: Grade::Fault,
    group: Group::Materials,
    looks_for: "A word such as `soda`, `bicarb` or `vitamin C` that is used for several materials.",
    why: "Washing soda, baking soda and caustic soda are all called soda. One develops, one does nothing, one \
              burns.",
    instead: "Write which is meant, with its form, or its formula.",
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
  soda: 36 g
keeps: 4 weeks
```
",
        ),
        Example::bad(
            "
```recipe
id: a-stock
role: stock
makes: 1 l
water: 800 ml
add:
  bicarb: 36 g
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
  washing soda, anhydrous: 36 g
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in context.mixed {
        for dose in mixture.spoken_of(|dose| matches!(dose.known, Known::Ambiguous { .. })) {
            let Known::Ambiguous { names, .. } = &dose.known else {
                continue;
            };
            let Some(span) = place(mixture.block, [dose.name.span]) else {
                continue;
            };
            let names: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
            let message = format!(
                "`{}` is used for several materials: which is meant?",
                dose.name.value
            );
            report.add(
                report
                    .finding(span, message)
                    .help(format!("write {}", names.join(" or "))),
            );
        }
    }
}
