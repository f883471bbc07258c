//! A scan finer or coarser than the picture.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Group, Rule, Sureness};

use super::walk::exposures;

pub(super) const RULE: Rule = Rule {
    name: slug::SCAN_RESOLUTION_OFF,
    grade: Grade::Hint,
    group: Group::Exposure,
    looks_for: "A scan with less than half or more than twice the resolution that the camera's picture is worth.",
    why: "Coarser loses what the hole drew; finer makes a larger file of the same blur.",
    instead: "Scan near the camera's `finest-scan`.",
    threshold: Some("Half and twice the finest scan; below 300 dpi is never called fine."),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[],
    check: Some(check),
};

/// How far off it may be, as a factor. Common practice, no source.
const OFF: f64 = 2.0;
/// What no one calls too fine, in dots an inch. Common practice, no source.
const PLAIN: f64 = 300.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (_, exposure) in exposures(context) {
        let (Some(scan), Some(camera)) = (exposure.scan.get(), exposure.camera.get()) else {
            continue;
        };
        let Some(dpi) = scan.dpi.get() else { continue };
        let Some(finest) = context.facts.get(&camera.value, "finest-scan") else {
            continue;
        };
        let Some(worth) = finest.range().map(|range| range.best) else {
            continue;
        };
        let found = dpi.range.best;
        let message = if found < worth / OFF {
            "this scan is coarser than the picture and loses some of it"
        } else if found > (worth * OFF).max(PLAIN) {
            "this scan is finer than the picture, which gives a larger file and no more to see"
        } else {
            continue;
        };
        report.add(
            report
                .finding(dpi.span, message)
                .help(format!("{} is enough for this camera", finest.text(style))),
        );
    }
}
