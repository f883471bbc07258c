//! Sunlight at night.

use crate::facts::Sunlight;
use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::walk::exposures;

pub(super) const RULE: Rule = Rule {
    name: slug::SUN_BELOW_HORIZON,
    grade: Grade::Fault,
    group: Group::Exposure,
    looks_for: "An exposure in `sun` at a time when the sun is below the horizon.",
    why: "Either the hour, the date, the zone or the place is wrong, and with it the light and every time that follows.",
    instead: "Look at the hour and at `zone` and `place` in trayside.yaml: east of Greenwich is positive.",
    threshold: Some("The sun's upper rim below the horizon."),
    sureness: Sureness::Published,
    sources: &[
        "Reda and Andreas 2004, Solar position algorithm for solar radiation applications, Solar Energy 76(5), 577",
    ],
    examples: &[
        Example::bad(
            "
```camera
id: box
pinhole: 0.3 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```exposure
id: pier
when: 2031-05-02 23:20
camera: box
paper: grade-2
light: sun
time: 30 s
```
",
        ),
        Example::good(
            "
```camera
id: box
pinhole: 0.3 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: sun
time: 30 s
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (_, exposure) in exposures(context) {
        let (Some(sun), Some(light), Some(when)) = (
            Sunlight::of(exposure, context.notebook),
            exposure.light.get(),
            exposure.when.get(),
        ) else {
            continue;
        };
        if sun.is_night() {
            report.add(
                report
                    .finding(
                        light.span,
                        format!("at {} the sun was below the horizon", when.value.written),
                    )
                    .help("look at the hour here, and at `zone` and `place` in trayside.yaml")
                    .relate(when.span, "this is when it was made"),
            );
        }
    }
}
