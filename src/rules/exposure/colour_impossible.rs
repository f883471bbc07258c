//! A colour that no light for a picture has.

use crate::finding::{Grade, slug};
use crate::optics::colour::COLOURS;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Dimension, Range, show};

use super::walk::exposures;

pub(super) const RULE: Rule = Rule {
    name: slug::COLOUR_IMPOSSIBLE,
    grade: Grade::Fault,
    group: Group::Exposure,
    looks_for: "A light's colour below 1000 or above 40 000 kelvin.",
    why: "What glows below that gives no picture, and no sky is bluer than that. It is a slip of the pen, and no time can be computed with it.",
    instead: "A candle has 1850 K, a household bulb 2700 K, daylight 5500 K, a blue sky 10 000 K and more.",
    threshold: Some("1000 and 40 000 K, over the whole range that was written."),
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
sees: blue
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 8
colour: 270 K
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
sees: blue
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 8
colour: 1850 K
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    let [lowest, highest] = COLOURS;
    let word = |kelvin: f64| {
        show(
            Range::exact(kelvin),
            Dimension::ColourTemperature,
            Digits::Significant(3),
            style,
        )
    };
    for (_, exposure) in exposures(context) {
        let Some(light) = exposure.colour.get() else {
            continue;
        };
        if light.range.low >= lowest && light.range.high <= highest {
            continue;
        }
        report.add(
            report
                .finding(
                    light.span,
                    format!("no light for a picture has a colour of {}", light.show(style)),
                )
                .help(format!(
                    "colours lie between {} and {}: a household bulb has {}, daylight {}",
                    word(lowest),
                    word(highest),
                    word(2700.0),
                    word(5500.0)
                )),
        );
    }
}
