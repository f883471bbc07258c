//! A safelight too near the trays.

use crate::finding::{Grade, slug};
use crate::notebook::Body;
use crate::optics::safelight::NEAREST;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LAMP_TOO_NEAR,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A safelight less than a metre from the paper.",
    why: "Half the distance is four times the light, and a sheet leans nearer still when it is lifted.",
    instead: "Hang it higher, turn it to the wall, and test again where it hangs.",
    threshold: Some("One metre."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```safelight
id: beam
lamp: red bulb
colour: red
distance: 0.5 m
tested:
  paper: grade-2
  pre-exposed: clean to 30 min
```
",
        ),
        Example::good(
            "
```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```safelight
id: beam
lamp: red bulb
colour: red
distance: 1.3 m
tested:
  paper: grade-2
  pre-exposed: clean to 30 min
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for block in &context.notebook.blocks {
        let Body::Safelight(lamp) = &block.body else {
            continue;
        };
        let Some(distance) = lamp.distance.get() else {
            continue;
        };
        if distance.range.high < NEAREST.millimetres() {
            report.add(
                report
                    .finding(
                        distance.span,
                        format!(
                            "the lamp hangs {} from the paper, which is near",
                            distance.show(style)
                        ),
                    )
                    .help("hang it a metre away or more, or turn it to the wall, and test it there"),
            );
        }
    }
}
