//! A stop that is too short or too long.

use crate::finding::{Grade, slug};
use crate::notebook::{Duration, Role};
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::lines;
use crate::source::Span;
use crate::units::Amount;

pub(super) const RULE: Rule = Rule {
    name: slug::STOP_TIME,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A stop that lasts less than 15 s or more than a minute, in the recipe or in the line.",
    why: "It takes about fifteen seconds to work through the layer. Beyond a minute it soaks into the base and \
              is carried into the fixer.",
    instead: "Half a minute.",
    threshold: Some("Below 15 s or above 60 s."),
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
use:
  time: 5 min
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
use:
  time: 30 s
keeps: 12 h
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, bath) in context.baths() {
        if bath.role() == Some(Role::Stop)
            && let Some(time) = bath.recipe.usage.time.get()
            && let Some(span) = place(block, [time.span])
        {
            one(context, &time.amount, span, report);
        }
    }
    for line in lines(context) {
        for step in line.steps.iter().filter(|step| step.is(Role::Stop)) {
            if let Some(time) = step.step.time.get()
                && let Duration::Takes(amount) = &time.value
            {
                one(context, amount, time.span, report);
            }
        }
    }
}

fn one(context: &Context<'_>, time: &Amount, span: Span, report: &mut Report) {
    let word = if time.range.high < 15.0 {
        "too short for a stop to work through the layer"
    } else if time.range.low > 60.0 {
        "too long for a stop: the sheet soaks it up and carries it into the fixer"
    } else {
        return;
    };
    let message = format!("{} is {word}", time.show(context.notebook.settings.style));
    report.add(report.finding(span, message).help("write `time: 30 s`"));
}
