//! A stop that is never thrown away.

use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::rules::context::{Context, Report};
use crate::rules::place::{head, own};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::STOP_NEVER_DISCARDED,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A stop that says neither what it takes, nor how long it keeps, nor what to look for.",
    why: "Every sheet brings soda into it. A spent stop looks like a fresh one, and lets the developer go on \
              in the fixer.",
    instead: "Write `see: mix new when a strip reads above pH 5`, a `capacity`, or `keeps`.",
    threshold: None,
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
  citric acid, anhydrous: 10 g
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

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, bath) in context.baths() {
        let usage = &bath.recipe.usage;
        let silent = usage.capacity.is_absent() && usage.see.is_absent() && bath.recipe.keeps.is_absent();
        if bath.role() == Some(Role::Stop) && own(bath) && silent {
            report.add(
                report
                    .finding(head(block, bath), "nothing says when this stop is spent")
                    .help("add to `use`: `see: mix new when a strip reads above pH 5`, or a `capacity`"),
            );
        }
    }
}
