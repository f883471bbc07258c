//! An acid strong enough to burn.

use crate::finding::{Grade, slug};
use crate::rules::burning_acid::burns;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::ACID_CONCENTRATED,
    grade: Grade::Hazard,
    group: Group::Materials,
    looks_for: "Glacial acetic acid, vinegar essence, a mineral acid, or acetic acid above 15 %.",
    why: "They burn skin and eyes at once, and glacial acetic acid catches fire. No bath of this craft needs \
              them.",
    instead: "Use vinegar of 10 % or less, or citric acid. If it must be: goggles, gloves, and the acid into the \
              water, never the reverse.",
    threshold: Some("15 % and above; without a strength any amount."),
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
  glacial acetic acid: 10 ml
keeps: 12 h
```
",
        ),
        Example::bad(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  acetic acid 80 % w/w: 12 ml
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
  vinegar 8 %: 125 ml
keeps: 12 h
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in mixtures(context) {
        for dose in &mixture.bath.doses {
            if !burns(context.notebook, &dose.known) {
                continue;
            }
            if let Some(span) = mixture.at([dose]) {
                report.add(
                    report
                        .finding(span, format!("`{}` burns skin and eyes", dose.name.value))
                        .help("use `vinegar 8 %` or `citric acid, anhydrous`; if not, acid into water, with goggles"),
                );
            }
        }
    }
}
