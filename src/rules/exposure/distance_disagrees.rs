//! A distance that the tin itself contradicts.

use crate::finding::{Grade, slug};
use crate::notebook::Plane;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Dimension, Range, show};

use super::walk::{cameras, hole};

pub(super) const RULE: Rule = Rule {
    name: slug::DISTANCE_DISAGREES,
    grade: Grade::Fault,
    group: Group::Exposure,
    looks_for: "A `distance` in a round tin that is not the one its radius gives.",
    why: "In a tin the distance follows from the radius: twice the radius to the wall opposite, the radius from the axis. The computed one is used, so one of the two is a slip of the pen, and the f-number may be wrong.",
    instead: "Take `distance` out, or measure the radius again: inside, from wall to wall, halved.",
    threshold: Some("More than 2 % apart."),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```camera
id: box
pinhole: 0.34 mm
distance: 50 mm
format: 100×125 mm
plane: wall, radius 50 mm
```
",
        ),
        Example::good(
            "
```camera
id: box
pinhole: 0.34 mm
distance: 100 mm
format: 100×125 mm
plane: wall, radius 50 mm
```
",
        ),
    ],
    check: Some(check),
};

/// How far the two may be apart, as a share. Common practice, no source.
const APART: f64 = 0.02;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, camera) in cameras(context) {
        let (Some(distance), Some(plane), Some((hole, _))) =
            (camera.distance.get(), camera.plane.get(), hole(context, camera))
        else {
            continue;
        };
        if plane.value == Plane::Flat {
            continue;
        }
        let Some(n) = context.facts.range(&block.id, "f-number") else {
            continue;
        };
        let real = n.best * hole.best;
        let (low, high) = (
            distance.range.low * (1.0 - APART),
            distance.range.high * (1.0 + APART),
        );
        if (low..=high).contains(&real) {
            continue;
        }
        let text = show(
            Range::exact(real),
            Dimension::Length,
            Digits::Significant(3),
            style,
        );
        report.add(
            report
                .finding(
                    distance.span,
                    format!(
                        "the tin's own measures make the distance {text}, not {}",
                        distance.show(style)
                    ),
                )
                .help("take `distance` out: it is computed for round tins; or measure the radius again")
                .relate(plane.span, "from these measures"),
        );
    }
}
