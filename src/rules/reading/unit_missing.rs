//! A number alone.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::is_bare_number;

pub(super) const RULE: Rule = Rule {
    name: slug::UNIT_MISSING,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A number without a unit where one is needed.",
    why: "`10` may be ten seconds or ten minutes.",
    instead: "Write the unit after the number.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
thickness: 0.25
```
",
        ),
        Example::bad(
            "```recipe
title: Plain hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200
keeps: 2 months
waste: labelled can, to the collection point
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
thickness: 0.25 mm
```
",
        ),
    ],
    check: Some(check),
};

/// Most numbers alone are met where they are read. Of a material a number alone may count tablets: only here it is known what
/// the material is.
fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in context.mixed {
        for dose in mixture.spoken_of(is_bare_number) {
            if let Some(span) = place(mixture.block, [dose.amount.span, dose.name.span]) {
                let written = &dose.amount.written.text;
                report.add(
                    report
                        .finding(span, format!("`{written}` has no unit"))
                        .help(format!("write `{written} g`, if grams are meant")),
                );
            }
        }
    }
}
