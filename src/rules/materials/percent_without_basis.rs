//! A percentage of nothing in particular.

use crate::facts::{Dose, Known};
use crate::finding::{Grade, slug};
use crate::notebook::Notebook;
use crate::rules::burning_acid::holds_acetic;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::PERCENT_WITHOUT_BASIS,
    grade: Grade::Doubt,
    group: Group::Materials,
    looks_for: "A strength in per cent that does not say whether it is by mass or by volume. Vinegar labels are \
              excepted: they mean grams in 100 ml.",
    why: "The same figure is a different amount by mass and by volume: 28 % ammonia by mass is 25 g in 100 ml.",
    instead: "Write `% w/w` for grams in 100 g, `% w/v` for grams in 100 ml, `% v/v` for millilitres in 100 ml.",
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
  hydrogen peroxide 3 %: 20 ml
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
  hydrogen peroxide 3 % w/v: 20 ml
keeps: 4 weeks
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in context.mixed {
        for dose in mixture.spoken_of(|dose| is_open(context.notebook, dose)) {
            if let Some(span) = place(mixture.block, [dose.name.span]) {
                let message = format!("`{}`: per cent by mass or by volume?", dose.name.value);
                report.add(report.finding(span, message).help(
                    "write `% w/w` for grams in 100 g, `% w/v` for grams in 100 ml, `% v/v` for millilitres in 100 ml",
                ));
            }
        }
    }
}

fn is_open(notebook: &Notebook, dose: &Dose) -> bool {
    let Known::Material {
        material,
        strength: Some(strength),
    } = &dose.known
    else {
        return false;
    };
    // Of vinegar, that is: plain acetic acid is sold by mass as often as by volume.
    let vinegar = material.formula.is_none() && holds_acetic(notebook, material);
    // A strength that only the shelf gives is not this recipe's to mend.
    strength.basis.is_none() && !vinegar && dose.name.value.contains('%')
}
