//! A lamp nearer than it was tested.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LAMP_TOO_NEAR,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A safelight less than a metre from the paper, tested at a greater distance.",
    why: "At half the distance the lamp is four times as bright, and the safe time a quarter.",
    instead: "Hang it at least a metre away, or test it where it hangs.",
    threshold: Some("Below 1 m and nearer than the test."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 0.5 m
switches: red only
tested:
  date: 2031-04-02
  at: 1 m
  bare: 30 min
  pre-exposed: 24 min
```
",
        ),
        Example::good(
            "
```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 0.5 m
switches: red only
tested:
  date: 2031-04-02
  at: 0.5 m
  bare: 30 min
  pre-exposed: 24 min
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (_block, lamp) in context.notebook.safelights() {
        let tested = lamp.tested.get().and_then(|test| test.at.get());
        let (Some(distance), Some(tested)) = (lamp.distance.get(), tested) else {
            continue;
        };
        if distance.range.best >= 1000.0 || distance.range.best >= tested.range.best * 0.99 {
            continue;
        }
        let factor = tested.range.best / distance.range.best;
        let message = format!(
            "it hangs at {} and was tested at {}: {} times as bright",
            distance.show(style),
            tested.show(style),
            number(factor * factor, 2, style)
        );
        report.add(
            report
                .finding(distance.span, message)
                .help("hang it a metre away, or test it where it hangs")
                .relate(tested.span, "the test"),
        );
    }
}
