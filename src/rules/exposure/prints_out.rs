//! A sheet so long in the sun that it needs no developer.

use crate::facts::full_exposures;
use crate::finding::{Grade, slug};
use crate::optics::changing::PRINTS_OUT;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Range, number};

use super::walk::exposures;

pub(super) const RULE: Rule = Rule {
    name: slug::PRINTS_OUT,
    grade: Grade::Hint,
    group: Group::Exposure,
    looks_for: "An exposure in the sun that gathers more than sixteen full exposures.",
    why: "Such a sheet darkens by light alone, which is a picture of its own kind; in the developer it would only turn black.",
    instead: "Do not develop it: fix it or scan it as it is. If it is meant to be developed, close the hole much sooner.",
    threshold: Some("Sixteen full exposures, counted minute by minute over the sun's way."),
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
light: sun
time: 6 h
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
    let style = context.notebook.settings.style;
    for (_, exposure) in exposures(context) {
        let Some(time) = exposure.time.get() else { continue };
        let full = full_exposures(exposure, context.notebook, context.facts);
        let Some(full) = full.filter(|full| *full > PRINTS_OUT) else {
            continue;
        };
        let full = number(Range::exact(full), Digits::Significant(2), style);
        report.add(
            report
                .finding(
                    time.span,
                    format!(
                        "in this time the sheet gathers {full} full exposures: it prints out by light alone"
                    ),
                )
                .help("do not develop it, fix it or scan it as it is; or open the hole for a shorter time"),
        );
    }
}
