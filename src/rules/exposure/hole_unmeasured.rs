//! A hole that cannot be measured on its scan.

use crate::finding::{Grade, slug};
use crate::optics::measure::FINE_ENOUGH;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Group, Rule, Sureness};
use crate::units::{Digits, Dimension, Range, show};

use super::walk::cameras;

pub(super) const RULE: Rule = Rule {
    name: slug::HOLE_UNMEASURED,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A scan that a hole cannot be measured on, one whose resolution is not said, a hole on it that is far from round, and a width that is known to less than a third of a stop.",
    why: "Every time of this camera goes with the square of the hole's width.",
    instead: "Scan the plate with light behind it at 3200 dpi or more, with plate all round the hole, the scanner's sharpening off.",
    threshold: Some(
        "Roundness below 0.8; a range of the width wider than a third of a stop either way, which is a ninth of the width.",
    ),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[],
    check: Some(check),
};

/// Below this a hole is no round one: `4 pi A/P^2` of an ellipse 2.2 times as long as wide. Common practice, no source.
const ROUND: f64 = 0.8;
/// A third of a stop either way, as a share of the width: two to the sixth part, less one.
const THIRD_OF_A_STOP: f64 = 0.122;

fn check(context: &Context<'_>, report: &mut Report) {
    let notebook = context.notebook;
    let style = notebook.settings.style;
    for (_, camera) in cameras(context) {
        let Some(scan) = camera.scan.get() else { continue };
        let seen = match notebook.holes.on(scan) {
            None if camera.pinhole.is_absent() && camera.dpi.is_absent() => {
                report.add(
                    report
                        .finding(
                            scan.span,
                            "the resolution of this scan is not said, so the hole on it cannot be measured",
                        )
                        .help("add `dpi: 3200`, or measure the hole otherwise and write `pinhole: 0.3 mm`"),
                );
                continue;
            }
            None => continue,
            Some(Err(why)) => {
                report.add(
                    report
                        .finding(
                            scan.span,
                            format!("the hole cannot be measured on this scan: {why}"),
                        )
                        .help("or measure it otherwise and write `pinhole: 0.3 mm`"),
                );
                continue;
            }
            Some(Ok(seen)) => seen,
        };
        if seen.roundness < ROUND {
            report.add(
                report
                    .finding(scan.span, "the hole on this scan is not round, and its picture is softer one way than the other")
                    .help("turn the needle while it goes through, and sand off the burr"),
            );
        }
        if camera.pinhole.get().is_some() {
            continue;
        }
        let [low, best, high] = seen.diameter.map(crate::units::scalar::Length::millimetres);
        if (high - best).max(best - low) > THIRD_OF_A_STOP * best {
            let width = show(
                Range { low, best, high },
                Dimension::Length,
                Digits::Significant(2),
                style,
            );
            report.add(
                report
                    .finding(
                        scan.span,
                        format!("this scan tells the hole to no better than {width}, over a third of a stop either way"),
                    )
                    .help(format!("scan it at {FINE_ENOUGH:.0} dpi or more, with light behind it")),
            );
        }
    }
}
