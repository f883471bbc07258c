//! A lamp that can show other colours.

use crate::finding::{Grade, slug};
use crate::notebook::{Body, Switches};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LAMP_CHANGES_COLOUR,
    grade: Grade::Hint,
    group: Group::Exposure,
    looks_for: "A safelight that can change its colour.",
    why: "One wrong button, or a cut in the power after which it comes up white, and every open sheet is lost. Many such lamps also leak some blue when dimmed.",
    instead: "Take a lamp that can only be red, or tape its buttons and cover it with red foil.",
    threshold: None,
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```safelight
id: beam
lamp: red bulb
colour: red
distance: 1.3 m
switches: colour-changing
tested:
  paper: grade-2
  pre-exposed: clean to 30 min
```
",
        ),
        Example::good(
            "
```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```safelight
id: beam
lamp: red bulb
colour: red
distance: 1.3 m
switches: red only
tested:
  paper: grade-2
  pre-exposed: clean to 30 min
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for block in &context.notebook.blocks {
        let Body::Safelight(lamp) = &block.body else {
            continue;
        };
        let Some(switches) = lamp.switches.get() else {
            continue;
        };
        if switches.value == Switches::ColourChanging.word() {
            report.add(
                report
                    .finding(
                        switches.span,
                        "this lamp can turn another colour while sheets lie open",
                    )
                    .help("tape over its buttons and cover it with red foil, or take one that is red only"),
            );
        }
    }
}
