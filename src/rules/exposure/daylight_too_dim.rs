//! A light below EV 0 by day.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::walk::{exposures, light_and_sun};

pub(super) const RULE: Rule = Rule {
    name: slug::DAYLIGHT_TOO_DIM,
    grade: Grade::Hint,
    group: Group::Exposure,
    looks_for: "An exposure value below 0 while the sun is well up.",
    why: "EV 0 is a room by one candle. By day that is a cellar, or a minus sign too many.",
    instead: "If it is a dark room, say so in `note`; else look at the sign.",
    threshold: Some("Below EV 0 with the sun more than 5 degrees up."),
    sureness: Sureness::Practice,
    sources: &[],
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
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV -3
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
light: EV 3
time: 30 s
```
",
        ),
    ],
    check: Some(check),
};

/// The altitude from which it is day, in degrees. Common practice, no source.
const DAY: f64 = 5.0;

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, exposure) in exposures(context) {
        let Some(written) = exposure.light.get() else {
            continue;
        };
        if block.note.is_some() {
            continue;
        }
        let Some([light, altitude]) = light_and_sun(context, block) else {
            continue;
        };
        if light.high < 0.0 && altitude.best > DAY {
            report.add(
                report
                    .finding(
                        written.span,
                        "this is darker than a room by one candle, and it was day",
                    )
                    .help("look at the sign; if it was a dark room, say so in `note`"),
            );
        }
    }
}
