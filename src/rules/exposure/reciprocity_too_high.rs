//! A reciprocity that no paper has.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Range, number};

use super::walk::papers;

pub(super) const RULE: Rule = Rule {
    name: slug::RECIPROCITY_TOO_HIGH,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A reciprocity p above 2.",
    why: "With p 2 a metered minute already takes an hour. Paper and film lie well below that, so a light, a time or the point in the number was written wrongly.",
    instead: "Write 1.2 and mark it guessed, and let strips in bright and in dim light tell. Schwarzschild's q is written `q 0.86`.",
    threshold: Some("p above 2; below 1 it is refused when it is read."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```paper
id: grade-2
base: RC
speed: 5
reciprocity: 2.5
```
",
        ),
        Example::bad(
            "
```paper
id: grade-2
base: RC
speed: 5
reciprocity: q 0.4
```
",
        ),
        Example::good(
            "
```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.35
```
",
        ),
    ],
    check: Some(check),
};

/// Common practice, no source.
const HIGHEST: f64 = 2.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, paper) in papers(context) {
        let Some(written) = paper.reciprocity.get() else {
            continue;
        };
        let p = written.value.p.best;
        if p <= HIGHEST {
            continue;
        }
        report.add(
            report
                .finding(
                    written.span,
                    format!(
                        "with p {} a metered minute on `{}` becomes {} minutes",
                        number(Range::exact(p), Digits::Significant(3), style),
                        block.name(),
                        number(
                            Range::exact(libm::pow(60.0, p - 1.0)),
                            Digits::Significant(2),
                            style
                        )
                    ),
                )
                .help("no paper is known to be above p 2; write 1.2 and mark it guessed, until strips tell"),
        );
    }
}
