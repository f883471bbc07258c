//! A lamp that hangs too near.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LAMP_TOO_NEAR,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A safelight less than a metre from the paper.",
    why: "At half the distance the lamp is four times as bright, and the safe time a quarter. Near a lamp that happens to every \
          sheet that is lifted to be looked at, whatever the test in the tray has shown.",
    instead: "Hang it at least a metre away, and test it there.",
    threshold: Some("Below 1 m."),
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
        Example::bad(
            "
```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 0.6 m
switches: red only
tested:
  date: 2031-04-02
  at: 0.6 m
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
distance: 1 m
switches: red only
tested:
  date: 2031-04-02
  at: 1 m
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
        // Of a lamp without any test, that is said, with its distance.
        let (Some(distance), Some(test)) = (lamp.distance.get(), lamp.tested.get()) else {
            continue;
        };
        if distance.range.best >= 1000.0 {
            continue;
        }
        let hangs = distance.show(style);
        let further = test
            .at
            .get()
            .filter(|tested| distance.range.best < tested.range.best * 0.99);
        let finding = match further {
            Some(tested) => {
                let factor = tested.range.best / distance.range.best;
                let message = format!(
                    "it hangs at {hangs} and was tested at {}: {} times as bright",
                    tested.show(style),
                    number(factor * factor, 2, style)
                );
                report
                    .finding(distance.span, message)
                    .help("hang it a metre away, and test it there")
                    .relate(tested.span, "the test")
            }
            None => report
                .finding(
                    distance.span,
                    format!(
                        "it hangs at {hangs}: nearer than a metre, a sheet that is lifted is soon fogged"
                    ),
                )
                .help("hang it a metre away, and test it there"),
        };
        report.add(finding);
    }
}
