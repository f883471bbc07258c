//! Paper that goes too far round a tin, or round half a cylinder.

use crate::finding::{Grade, slug};
use crate::notebook::Plane;
use crate::optics::holes::{Wrap, wrap};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::scalar::Length;
use crate::units::{Digits, Dimension, Range, show};

use super::walk::cameras;

pub(super) const RULE: Rule = Rule {
    name: slug::PAPER_WRAPS_FAR,
    grade: Grade::Fault,
    group: Group::Exposure,
    looks_for: "Paper that reaches so far round the wall of a tin that its ends see the hole at a slant, or cover it; or over more than half of a cylinder that has the hole on its axis.",
    why: "Towards the hole the picture is stretched and shaded by the plate; at the end the paper covers the hole itself, and nothing gets in. A hole on the axis lights half a cylinder, and nothing behind its own plate.",
    instead: "Cut the sheet shorter, or take a wider tin.",
    threshold: Some(
        "A hint over 180 degrees of wall, a doubt over 240, a fault from 20 mm less than all round. With the hole on the axis a fault over 180.",
    ),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```camera
id: box
pinhole: 0.34 mm
plane: wall, radius 50 mm
format: 100×300 mm
```
",
        ),
        Example::bad(
            "
```camera
id: half
pinhole: 0.34 mm
plane: axis, radius 60 mm
format: 100×200 mm
```
",
        ),
        Example::good(
            "
```camera
id: box
pinhole: 0.34 mm
plane: wall, radius 50 mm
format: 100×125 mm
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (_, camera) in cameras(context) {
        let (Some(plane), Some(format)) = (camera.plane.get(), camera.format.get()) else {
            continue;
        };
        let (radius, on_axis) = match &plane.value {
            Plane::Wall { radius } => (radius, false),
            Plane::Axis { radius } => (radius, true),
            Plane::Flat | Plane::Lid { .. } => continue,
        };
        let along = format.value.width.max(format.value.height);
        let (how_far, angle) = wrap(along, Length::from_millimetres(radius.range.best));
        let (grade, what) = match (how_far, on_axis) {
            (Wrap::Within, _) => continue,
            // Behind the plate with the hole there is no light.
            (_, true) => (Grade::Fault, "what is beyond half of it gets no light"),
            (Wrap::Far, _) => (Grade::Hint, "its ends are stretched and pale"),
            (Wrap::TooFar, _) => (Grade::Doubt, "its ends see the hole from the side and stay pale"),
            (Wrap::CoversHole, _) => (Grade::Fault, "it covers the hole"),
        };
        let round = if on_axis { "cylinder" } else { "tin" };
        let angle = show(
            Range::exact(angle.degrees()),
            Dimension::Angle,
            Digits::Decimals(0),
            style,
        );
        report.add(
            report
                .graded(
                    grade,
                    format.span,
                    format!("this paper goes {angle} round the {round}: {what}"),
                )
                .help(format!("cut the sheet shorter, or take a wider {round}"))
                .relate(plane.span, format!("this is the {round}")),
        );
    }
}
