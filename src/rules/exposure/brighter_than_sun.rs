//! More light than the sun gave.

use crate::finding::{Grade, slug};
use crate::optics::facing;
use crate::optics::scene::{Facing, Sky};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::scalar::Angle;
use crate::units::{Digits, Dimension, Range, show};

use super::walk::{exposures, light_and_sun};

pub(super) const RULE: Rule = Rule {
    name: slug::BRIGHTER_THAN_SUN,
    grade: Grade::Hint,
    group: Group::Exposure,
    looks_for: "A light that is more than two stops brighter than a clear sky with the sun on the subject at that hour and place.",
    why: "No subject outdoors gets more than that, so the meter, its speed setting, the word or the hour is wrong.",
    instead: "Look at the meter's setting and at the hour.",
    threshold: Some("Two stops; the hours between dusk and dawn and rooms with lamps are left alone."),
    sureness: Sureness::Computed,
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
light: EV 18
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
light: EV 14
time: 30 s
```
",
        ),
    ],
    check: Some(check),
};

/// How much brighter, in stops. Common practice, no source.
const BRIGHTER: f64 = 2.0;

/// Below this altitude in degrees lamps and glow count for more than the sun. Common practice, no source.
const DUSK: f64 = 5.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, exposure) in exposures(context) {
        let Some(written) = exposure.light.get() else {
            continue;
        };
        let Some([light, altitude]) = light_and_sun(context, block) else {
            continue;
        };
        if altitude.best < DUSK {
            continue;
        }
        let sun = facing::exposure_value(Angle::from_degrees(altitude.best), Facing::Front, Sky::Clear);
        if light.low <= sun.best + BRIGHTER {
            continue;
        }
        let most = show(
            Range::exact(sun.best),
            Dimension::ExposureValue,
            Digits::Decimals(1),
            style,
        );
        report.add(
            report
                .finding(
                    written.span,
                    format!("this is brighter than the sun made it that hour: {most}"),
                )
                .help("look at the meter's speed setting, and at the hour"),
        );
    }
}
