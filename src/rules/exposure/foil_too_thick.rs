//! A plate so thick that the edges go dark.

use crate::finding::{Grade, slug};
use crate::optics::foil::THICK;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Range, number};

use super::walk::{cameras, hole};

pub(super) const RULE: Rule = Rule {
    name: slug::FOIL_TOO_THICK,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A plate thicker than a fifth of its hole in a camera that sees more than 45 degrees to each side.",
    why: "Slanting light has to pass a tunnel. At 45 degrees a plate of a fifth of the hole already takes more than 0.4 stop, on top of the fall-off that every camera has.",
    instead: "Thin the plate with fine abrasive before drilling, or drill into foil from a drink can or thinner.",
    threshold: Some("Thickness over a fifth of the hole, and an angle of view over 90 degrees."),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```camera
id: box
pinhole: 0.2 mm
distance: 40 mm
format: 100×125 mm
foil: 0.1 mm
```
",
        ),
        Example::good(
            "
```camera
id: box
pinhole: 0.2 mm
distance: 40 mm
format: 100×125 mm
foil: 0.03 mm
```
",
        ),
    ],
    check: Some(check),
};

/// The angle of view over which it counts, in degrees. Common practice, no source.
const WIDE: f64 = 90.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, camera) in cameras(context) {
        let (Some(foil), Some((hole, hole_span))) = (camera.foil.get(), hole(context, camera)) else {
            continue;
        };
        let angle = context.facts.range(&block.id, "angle-of-view");
        let share = foil.range.best / hole.best;
        if share <= THICK || angle.is_none_or(|angle| angle.best <= WIDE) {
            continue;
        }
        let message = format!(
            "this plate is {} of its hole thick, and the camera looks far to the sides: its edges stay pale",
            number(Range::exact(share), Digits::Significant(2), style)
        );
        report.add(
            report
                .finding(foil.span, message)
                .help("use thinner foil, or sand it thinner before making the hole")
                .relate(hole_span, "this is the hole"),
        );
    }
}
