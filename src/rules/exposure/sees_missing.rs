//! Coloured light on paper that does not say what it sees.

use std::collections::BTreeSet;

use crate::finding::{Grade, slug};
use crate::optics::{Sees, colour};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::scalar::ColourTemperature;
use crate::units::{Digits, Dimension, Range, show};

use super::walk::exposures;

pub(super) const RULE: Rule = Rule {
    name: slug::SEES_MISSING,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "Light of a colour that costs some papers much more than others, on paper that does not say what it sees.",
    why: "Paper sees no red, and a meter does: by lamplight paper that sees only blue needs a stop more than paper that sees green too. Without a word about the paper the time is as unsure as that.",
    instead: "Write `sees: blue`, `blue-green` or `green too` (variable contrast) into the paper; its data sheet or a strip by lamplight tells.",
    threshold: Some("Half a stop between paper that sees only blue and paper that sees green too."),
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
light: EV 8
colour: 2700 K
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
sees: green too
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 8
colour: 2700 K
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
light: EV 8
colour: 5500 K
```
",
        ),
    ],
    check: Some(check),
};

/// From this difference between papers on, in stops. Common practice, no source.
const MUCH: f64 = 0.5;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    let mut told = BTreeSet::new();
    for (_, exposure) in exposures(context) {
        let (Some(light), Some(id)) = (exposure.colour.get(), exposure.paper.get()) else {
            continue;
        };
        let Some((paper_block, paper)) = context.notebook.paper(&id.value) else {
            continue;
        };
        let costs = |sees| {
            let kelvin = ColourTemperature::from_kelvin(light.range.best);
            colour::correction(sees, kelvin).map(crate::units::scalar::Stops::stops)
        };
        let (Some(blue), Some(green)) = (costs(Sees::Blue), costs(Sees::GreenToo)) else {
            continue;
        };
        let apart = libm::fabs(blue - green);
        if !paper.sees.is_absent() || apart < MUCH || !told.insert(id.value.as_str()) {
            continue;
        }
        let stops = show(
            Range::between(blue, green),
            Dimension::Stops,
            Digits::Decimals(1),
            style,
        );
        report.add(
            report
                .finding(
                    light.span,
                    format!(
                        "light of {} costs paper {stops}, by what it sees, and `{}` does not say that",
                        light.show(style),
                        paper_block.name()
                    ),
                )
                .help("write `sees: blue`, `blue-green` or `green too` into the paper")
                .relate(paper_block.head, "this paper does not say what it sees"),
        );
    }
}
