//! Room light before the sheet is fixed.

use crate::finding::{Grade, slug};
use crate::notebook::StepLight;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{LineStep, lines};

pub(super) const RULE: Rule = Rule {
    name: slug::LIGHTS_ON_EARLY,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A line in which the room light is on before the first fixing step has ended.",
    why: "Until the fixer has done its work the sheet is still paper: room light greys it.",
    instead: "Keep the lamp red, or dark, until the first fixer is over.",
    threshold: None,
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```

```process
id: the-line
paper: RC
steps:
  - bath: plain-hypo
    time: 2 min
    light: room
  - wash: tap water
    time: 4 min
    light: room
```
",
        ),
        Example::good(
            "
```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```

```process
id: the-line
paper: RC
steps:
  - bath: plain-hypo
    time: 2 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for line in lines(context) {
        let Some(fixed) = line.steps.iter().position(LineStep::fixes) else {
            continue;
        };
        let early = line.steps.iter().take(fixed + 1).find_map(|step| {
            let light = step.step.light.get()?;
            (step.step.lit() == Some(StepLight::Room)).then_some(light)
        });
        if let Some(light) = early {
            report.add(
                report
                    .finding(light.span, "the room light comes on before the sheet is fixed")
                    .help("write `light: red` up to the end of the first fixer"),
            );
        }
    }
}
