//! A verdict on a step that the strip does not have.

use crate::finding::{Grade, slug};
use crate::notebook::{Bracket, Exposure, Print, Slot, Strip, Verdict};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::source::Spanned;

pub(super) const RULE: Rule = Rule {
    name: slug::STEP_BEYOND_STRIP,
    grade: Grade::Fault,
    group: Group::Exposure,
    looks_for: "A result that is right at a step which the strip or bracket does not have.",
    why: "The right time is reckoned from the step, and whoever follows it exposes for a time that nobody tried.",
    instead: "Count the steps again from the shortest, the first being step 1.",
    threshold: Some("A step above the number of steps written."),
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "
```camera
id: drum
pinhole: 0.35 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: grade-2
light: EV 14
strip: 5 x 1/2 stop from 40 s
result: right at step 9
by: MT
```

",
        ),
        Example::good(
            "
```camera
id: drum
pinhole: 0.35 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: grade-2
light: EV 14
strip: 5 x 1/2 stop from 40 s
result: right at step 3
by: MT
```

",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (_, exposure) in context.notebook.exposures() {
        let Exposure {
            strip,
            bracket,
            result,
            ..
        } = exposure;
        look(steps(strip, bracket), result, report);
    }
    for (_, print) in context.notebook.prints() {
        let Print { strip, result, .. } = print;
        look(steps(strip, &Slot::Absent), result, report);
    }
}

/// How many steps were exposed; none where neither a strip nor a bracket says so.
fn steps(strip: &Slot<Spanned<Strip>>, bracket: &Slot<Spanned<Bracket>>) -> Option<u32> {
    let of_strip = strip.get().map(|strip| strip.value.steps);
    let of_bracket = bracket.get().map(|bracket| bracket.value.count);
    // With both, either may be meant.
    of_strip.max(of_bracket)
}

fn look(steps: Option<u32>, result: &Slot<Spanned<Verdict>>, report: &mut Report) {
    let (Some(steps), Some(result)) = (steps, result.get()) else {
        return;
    };
    let Verdict::RightAtStep(step) = result.value else {
        return;
    };
    if step > steps {
        let message = format!("step {step} is right, and only {steps} were exposed");
        report.add(
            report
                .finding(result.span, message)
                .help("count again from the shortest exposure, which is step 1"),
        );
    }
}
