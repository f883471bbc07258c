//! A strip with a step that no hand can keep.

use crate::finding::{Grade, slug};
use crate::notebook::Slot;
use crate::optics::strip::{SHORTEST, additional, rounded, totals};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::scalar::{Stops, Time};
use crate::units::{Digits, Dimension, Range, show};

pub(super) const RULE: Rule = Rule {
    name: slug::STRIP_STEP_TOO_SHORT,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A test strip one of whose exposures is shorter than a second.",
    why: "A strip is exposed bit by bit, each step getting what the one before still lacks. A hand and a lamp cannot keep less than a second, so the steps would lie.",
    instead: "Begin with a longer time, or put a filter or more distance before it.",
    threshold: Some("One second between two steps."),
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
light: EV 14
strip: 5 x 1/3 stop from 2 s
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
strip: 4 x 1 stop from 20 s
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    let notebook = context.notebook;
    let exposures = notebook.exposures().map(|(_, exposure)| &exposure.strip);
    let strips = exposures.chain(notebook.prints().map(|(_, print)| &print.strip));
    for strip in strips.filter_map(Slot::get) {
        let written = &strip.value;
        let all = totals(
            Time::from_seconds(written.from.range.best),
            Stops::new(written.stops.range.best),
            written.steps,
        );
        let shortest = additional(&all)
            .into_iter()
            .map(Time::seconds)
            .fold(f64::INFINITY, f64::min);
        if shortest >= SHORTEST.seconds() || shortest <= 0.0 {
            continue;
        }
        let text = show(
            Range::exact(rounded(Time::from_seconds(shortest)).seconds()),
            Dimension::Time,
            Digits::Significant(2),
            style,
        );
        report.add(
            report
                .finding(
                    strip.span,
                    format!("one of this strip's exposures lasts only {text}"),
                )
                .help("begin with a longer time, or take the light down: no hand keeps less than a second"),
        );
    }
}
