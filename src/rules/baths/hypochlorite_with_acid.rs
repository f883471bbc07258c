//! Chlorine bleach and an acid in one bath, or one after the other in the line.

use crate::finding::slug;
use crate::notebook::Role;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{LineStep, lines};
use crate::rules::substance::may_be;

pub(super) const RULE: Rule = Rule {
    name: slug::HYPOCHLORITE_WITH_ACID,
    grade: crate::finding::Grade::Hazard,
    group: Group::Baths,
    looks_for: "Chlorine bleach together with any acid, in one bath or in two trays that follow each other without water.",
    why: "Acid sets chlorine free from hypochlorite, within seconds and in any kitchen amount. Chlorine burns lungs. \
          Vinegar, citric acid, lemon juice and vitamin C are all acids here.",
    instead: "Leave bleach out of the darkroom. Stains on trays come off with washing soda and patience.",
    threshold: Some("Any amount of both."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: tray-cleaner
role: bleach
makes: 1 l
add:
  household bleach 4 % w/v: 50 ml
  vinegar 8 %: 50 ml
keeps: 1 h
waste: Ask first.
```
",
        ),
        Example::good(
            "
```recipe
id: tray-cleaner
role: bleach
makes: 1 l
add:
  household bleach 4 % w/v: 50 ml
keeps: 1 h
waste: Ask first. Never after an acid.
```
",
        ),
    ],
    check: Some(check),
};

const HELP: &str = "leave the bleach out: with acid it gives off chlorine, which burns lungs";

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in mixtures(context) {
        let bleach = mixture.may_hold(context, Property::Hypochlorite);
        let acid = mixture.may_hold(context, Property::Acid);
        if let (Some(bleach), Some(acid)) = (bleach, acid)
            && let Some(span) = mixture.at([bleach, acid])
        {
            let message = format!(
                "`{}` and the acid in `{}` must never meet: together they give off chlorine",
                bleach.name.value, acid.name.value
            );
            report.add(
                report
                    .finding(span, message)
                    .help(HELP)
                    .relate(acid.name.span, "this is an acid"),
            );
        }
    }
    for line in lines(context) {
        for pair in line.steps.windows(2) {
            let [first, second] = pair else { continue };
            let meets = bleach(context, first) && sour(second) || sour(first) && bleach(context, second);
            if meets {
                let message = format!(
                    "`{}` and `{}` follow each other without water between: bleach and acid give off chlorine",
                    first.name(),
                    second.name()
                );
                report.add(report.finding(second.step.span, message).help(HELP));
            }
        }
    }
}

fn bleach(context: &Context<'_>, step: &LineStep<'_>) -> bool {
    let mut doses = step.bath.into_iter().flat_map(|bath| &bath.doses);
    doses.any(|dose| may_be(context.notebook, dose, Property::Hypochlorite))
}

fn sour(step: &LineStep<'_>) -> bool {
    step.is(Role::Stop) || step.bath.is_some_and(|bath| bath.acid().is_some())
}
