//! The printing speed taken for the camera speed.

use crate::finding::{Grade, slug};
use crate::notebook::Paper;
use crate::optics::paper_speed::estimated_index;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Dimension, Range, show};

use super::walk::papers;

pub(super) const RULE: Rule = Rule {
    name: slug::BOX_SPEED_FOR_CAMERA,
    grade: Grade::Fault,
    group: Group::Exposure,
    looks_for: "The speed from the box given as the camera speed.",
    why: "The number on the box is measured for printing under a lamp and is about a hundred times the camera speed. With it every time is a hundred times too short and every sheet stays white.",
    instead: "Write the box's number as `box speed`, and as `speed` about 0.008 times it, until a strip tells better.",
    threshold: Some("A speed that equals the box speed, or is 50 or more."),
    sureness: Sureness::Published,
    sources: &[
        "ISO 6846:1992, Photography, black-and-white continuous-tone papers, determination of ISO speed and ISO range for printing (title from memory, unverified)",
    ],
    examples: &[
        Example::bad(
            "
```paper
id: grade-2
base: RC
speed: 400
box speed: 400
reciprocity: 1.2
```
",
        ),
        Example::good(
            "
```paper
id: grade-2
base: RC
speed: 3
box speed: 400
reciprocity: 1.2
```
",
        ),
    ],
    check: Some(check),
};

/// From here on a speed can only be one for printing. Common practice, no source.
const PRINTING: f64 = 50.0;

/// Whether a paper gives its printing speed as its camera speed.
pub(super) fn is_box_speed(paper: &Paper) -> bool {
    let Some(speed) = paper.speed.get() else {
        return false;
    };
    let same = paper
        .box_speed
        .get()
        .is_some_and(|boxed| boxed.range.best == speed.range.best);
    same || speed.range.low >= PRINTING
}

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (_, paper) in papers(context) {
        let Some(speed) = paper.speed.get().filter(|_| is_box_speed(paper)) else {
            continue;
        };
        let printing = paper.box_speed.get().unwrap_or(speed).range.best;
        let guess = show(
            Range::exact(estimated_index(printing).index()),
            Dimension::Speed,
            Digits::Significant(2),
            style,
        );
        report.add(
            report
                .finding(
                    speed.span,
                    format!(
                        "{} is the speed for printing, not for the camera",
                        speed.show(style)
                    ),
                )
                .help(format!(
                    "in a camera it is about {guess}: write that, marked guessed, and make a strip"
                )),
        );
    }
}
