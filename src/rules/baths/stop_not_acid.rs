//! A stop that is not acid.

use crate::facts::STOP_SPENT;
use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::told::told;
use crate::rules::what_if::as_ph;
use crate::units::Range;

pub(super) const RULE: Rule = Rule {
    name: slug::STOP_NOT_ACID,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A stop whose whole computed band of pH lies above 5 before the first sheet.",
    why: "A stop works by taking the alkali away. Above pH 5 it is spent, above 6 it stops nothing and the fixer pays for it.",
    instead: "Use vinegar of 1 to 2 % or 10 to 15 g of citric acid in a litre, and nothing that takes acid up.",
    threshold: Some("Above pH 5 a doubt, above pH 6 a fault."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  sodium bisulfite: 10 g
  sodium sulfite, anhydrous: 0.6 g
keeps: 12 h
```
",
        ),
        Example::good(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 10 g
keeps: 12 h
```
",
        ),
    ],
    check: Some(check),
};

/// Above this pH it stops nothing.
const FAILS: f64 = 6.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for mixture in context.mixed {
        let block = mixture.block;
        let (Some(Role::Stop), true, Ok(solution)) = (
            mixture.bath.role(),
            mixture.own(),
            context.facts.chemistry.solution(&block.id),
        ) else {
            continue;
        };
        let ph = solution.ph();
        let told = told(report, block, &[slug::STOP_STRENGTH, slug::SOLUBILITY_EXCEEDED]);
        let (Some(grade), false) = (judge(ph), told) else {
            continue;
        };
        let of_recipe = mixture.recipe().and_then(|recipe| {
            let written = context.facts.chemistry.solution(&recipe.id).ok()?;
            judge(written.ph())
        });
        if of_recipe.is_some_and(|said| said <= grade) {
            continue;
        }
        let shown = as_ph(ph, style);
        let message = format!("this stop comes out at {shown}: it is spent before the first sheet");
        report.add(
            report
                .graded(grade, mixture.head(), message)
                .help("use `citric acid, anhydrous: 10 g` in a litre, and nothing alkaline beside it"),
        );
    }
}

fn judge(ph: Range) -> Option<Grade> {
    if ph.low > FAILS {
        Some(Grade::Fault)
    } else {
        (ph.low > STOP_SPENT).then_some(Grade::Doubt)
    }
}
