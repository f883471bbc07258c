//! A sheet taller than its tin, or a hole wider than its box.

use crate::finding::{Grade, slug};
use crate::notebook::Plane;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Dimension, Range, show};

use super::walk::{cameras, hole};

pub(super) const RULE: Rule = Rule {
    name: slug::SHEET_TOO_TALL,
    grade: Grade::Fault,
    group: Group::Exposure,
    looks_for: "A sheet that is taller than the tin it stands in, and a hole that is as wide as the box is deep.",
    why: "Such a camera cannot be built, so one of its measures is wrong, and everything computed from it too.",
    instead: "Measure again, and look at the units: holes are tenths of a millimetre.",
    threshold: Some(
        "The sheet's short side over the tin's height; the hole no less than a tenth of the distance.",
    ),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```camera
id: box
pinhole: 0.3 mm
plane: lid, radius 50 mm, height 90 mm
format: 100×125 mm
```
",
        ),
        Example::good(
            "
```camera
id: box
pinhole: 0.3 mm
plane: lid, radius 50 mm, height 120 mm
format: 100×125 mm
```
",
        ),
    ],
    check: Some(check),
};

/// A hole is never so wide as this f-number says. Common practice, no source.
const WIDEST: f64 = 10.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, camera) in cameras(context) {
        let n = context.facts.range(&block.id, "f-number");
        if let (Some((hole, span)), Some(n)) = (hole(context, camera), n)
            && n.high <= WIDEST
        {
            report.add(
                report
                    .finding(
                        span,
                        format!(
                            "a hole of {} is no pinhole in this camera",
                            show(hole, Dimension::Length, Digits::Significant(2), style)
                        ),
                    )
                    .help("pinholes are a few tenths of a millimetre wide: look at the unit"),
            );
        }
        let (Some(plane), Some(format)) = (camera.plane.get(), camera.format.get()) else {
            continue;
        };
        let Plane::Lid { height, .. } = &plane.value else {
            continue;
        };
        let tall = format.value.width.min(format.value.height).millimetres();
        if tall > height.range.high {
            let tall = show(
                Range::exact(tall),
                Dimension::Length,
                Digits::Significant(3),
                style,
            );
            report.add(
                report
                    .finding(
                        format.span,
                        format!(
                            "a sheet of {tall} does not stand in a tin of {}",
                            height.show(style)
                        ),
                    )
                    .help("cut the sheet lower, or measure the tin again, inside")
                    .relate(plane.span, "this is the tin"),
            );
        }
    }
}
