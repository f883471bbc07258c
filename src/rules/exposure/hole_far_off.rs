//! A hole far from the best one.

use crate::facts::hole_constant;
use crate::finding::{Grade, slug};
use crate::optics::Criterion;
use crate::optics::pinhole::{LARGEST_CONSTANT, SMALLEST_CONSTANT};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Dimension, Range, show};

use super::walk::{cameras, hole};

pub(super) const RULE: Rule = Rule {
    name: slug::HOLE_FAR_OFF,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A hole narrower than three quarters of the best one for its distance, or wider than 1.4 times that.",
    why: "A narrower hole blurs by diffraction, a wider one by its own width, and both lose sharpness quickly; the wider one is at least fast.",
    instead: "Make a hole near the best one, or measure this one again: a scan against the light at a known resolution tells its width.",
    threshold: Some(
        "Outside 1.2 to 2.2 times the root of wavelength times distance, where the middle of what was written stands; the best hole by the default criterion has 1.56. There is no resolution beyond.",
    ),
    sureness: Sureness::Published,
    sources: &[
        "Mielenz 1999, On the diffraction limit for lensless imaging, Journal of Research of NIST 104, 479",
    ],
    examples: &[
        Example::bad(
            "
```camera
id: box
pinhole: 0.8 mm
distance: 75 mm
format: 100×125 mm
```
",
        ),
        Example::bad(
            "
```camera
id: box
pinhole: 0.25 mm
distance: 100 mm
format: 100×125 mm
```
",
        ),
        Example::bad(
            "
```camera
id: box
pinhole: 0.3 mm
distance: 40 mm
format: 100×125 mm
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
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, camera) in cameras(context) {
        let (Some((hole, span)), Some(constant)) =
            (hole(context, camera), hole_constant(camera, context.notebook))
        else {
            continue;
        };
        if (SMALLEST_CONSTANT..=LARGEST_CONSTANT).contains(&constant)
            || context.facts.range(&block.id, "f-number").is_none()
        {
            continue;
        }
        let share = constant / Criterion::default().constant();
        let message = format!(
            "this hole is {} times the best one for its distance, so the picture is {}",
            crate::units::number(Range::exact(share), Digits::Significant(2), style),
            if constant > LARGEST_CONSTANT {
                "as soft as the hole is wide"
            } else {
                "soft by diffraction, and slow"
            }
        );
        let best = show(
            Range::exact(hole.best / share),
            Dimension::Length,
            Digits::Significant(2),
            style,
        );
        report.add(
            report
                .finding(span, message)
                .help(format!("the best hole here is {best}; or measure this one again")),
        );
    }
}
