//! A hole far from the best one.

use crate::finding::{Grade, slug};
use crate::optics::pinhole::{self, Criterion, PAPER_WAVELENGTH};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::scalar::Length;
use crate::units::{Digits, Dimension, Range, show};

use super::walk::{cameras, hole};

pub(super) const RULE: Rule = Rule {
    name: slug::HOLE_FAR_OFF,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A hole narrower than 0.7 or wider than 1.5 times the best one for its distance.",
    why: "A narrower hole blurs by diffraction, a wider one by its own width, and both lose sharpness quickly; the wider one is at least fast.",
    instead: "Make a hole near the best one, or measure this one again: a scan against the light at a known resolution tells its width.",
    threshold: Some(
        "Outside 0.7 to 1.5 times the best hole by the default criterion, over the whole range that was written.",
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

/// Narrower than this share of the best hole, and wider than that one. Common practice, no source.
const BAND: (f64, f64) = (0.7, 1.5);

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, camera) in cameras(context) {
        let (Some((hole, span)), Some(n)) = (hole(context, camera), context.facts.get(&block.id, "f-number"))
        else {
            continue;
        };
        let Some(n) = n.range() else { continue };
        let distance = Length::from_millimetres(n.best * hole.best);
        let wavelength = camera.wavelength.get().map_or(PAPER_WAVELENGTH, |given| {
            Length::from_millimetres(given.range.best)
        });
        let best = pinhole::best_hole(Criterion::default(), distance, wavelength).millimetres();
        let wide = hole.low > BAND.1 * best;
        if !wide && hole.high >= BAND.0 * best {
            continue;
        }
        let message = format!(
            "this hole is {} times the best one for its distance, so the picture is {}",
            crate::units::number(Range::exact(hole.best / best), Digits::Significant(2), style),
            if wide {
                "as soft as the hole is wide"
            } else {
                "soft by diffraction, and slow"
            }
        );
        let best = show(
            Range::exact(best),
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
