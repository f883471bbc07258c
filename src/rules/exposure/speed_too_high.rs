//! A camera speed that no paper has.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::box_speed_for_camera::is_box_speed;
use super::walk::papers;

pub(super) const RULE: Rule = Rule {
    name: slug::SPEED_TOO_HIGH,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "A camera speed of more than 25 for paper.",
    why: "Paper is slow: in cameras it is used at 3 to 12. A speed out of reach leaves every sheet white.",
    instead: "Start from 6, make a strip, and let the log tell.",
    threshold: Some("Over 25; from 50 on, and where it equals the box speed, see `box-speed-for-camera`."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```paper
id: grade-2
base: RC
speed: 32
reciprocity: 1.2
```
",
        ),
        Example::good(
            "
```paper
id: grade-2
base: RC
speed: 8
reciprocity: 1.2
```
",
        ),
    ],
    check: Some(check),
};

/// The highest speed that is taken without a word. Common practice, no source.
const HIGHEST: f64 = 25.0;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (_, paper) in papers(context) {
        let Some(speed) = paper.speed.get() else { continue };
        if speed.range.low > HIGHEST && !is_box_speed(paper) {
            report.add(
                report
                    .finding(
                        speed.span,
                        format!("{} is faster than paper is in a camera", speed.show(style)),
                    )
                    .help("papers are used at 3 to 12: start from 6 and make a strip"),
            );
        }
    }
}
