//! Two changes at once, from which nothing can be learnt.

use jiff::Timestamp;
use std::collections::BTreeMap;

use crate::finding::{Grade, slug};
use crate::notebook::{Block, Exposure, Role, Verdict};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::walk::exposures;

pub(super) const RULE: Rule = Rule {
    name: slug::TWO_THINGS_CHANGED,
    grade: Grade::Hint,
    group: Group::Exposure,
    looks_for: "A sheet that was not right, and the next one of the same camera on another paper, in another developer or with another preflash, two of these or one of them with another exposure.",
    why: "If the exposure and the developer change on the same evening and the sheet comes out better, nobody knows which it was.",
    instead: "Change one thing, and keep the other for the next sheet.",
    threshold: Some(
        "An exposure counts as another from a third of a stop on, against what its light asks for.",
    ),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```camera
id: box
pinhole: 0.3 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```paper
id: grade-3
base: RC
speed: 5
reciprocity: 1.2
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 14
time: 1 min
result: needs +1 stop
```

```exposure
id: pier-two
when: 2031-05-02 11:40
camera: box
paper: grade-3
light: EV 14
time: 4 min
result: right
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

```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: grade-2
light: EV 14
time: 1 min
result: needs +1 stop
```

```exposure
id: pier-two
when: 2031-05-02 11:40
camera: box
paper: grade-2
light: EV 14
time: 4 min
result: right
```
",
        ),
    ],
    check: Some(check),
};

/// From here on an exposure is another one, in stops. Common practice, no source.
const ANOTHER: f64 = 0.34;

fn check(context: &Context<'_>, report: &mut Report) {
    let developers = developers(context);
    let mut by_camera: BTreeMap<&str, Vec<(Timestamp, &Block, &Exposure)>> = BTreeMap::new();
    for (block, exposure) in exposures(context) {
        if let (Some(camera), Some(when)) = (exposure.camera.get(), exposure.when.get())
            && when.value.timed
        {
            let entry = (when.value.instant(), block, exposure);
            by_camera.entry(&camera.value).or_default().push(entry);
        }
    }
    for log in by_camera.values_mut() {
        log.sort_by_key(|(at, ..)| *at);
        for pair in log.windows(2) {
            let [(_, before_block, before), (_, block, now)] = pair else {
                continue;
            };
            if is_right(before) || now.strip.get().is_some() || now.bracket.get().is_some() {
                continue;
            }
            let mut changed = Vec::new();
            let papers = (before.paper.get(), now.paper.get());
            if matches!(papers, (Some(a), Some(b)) if a.value != b.value) {
                changed.push("the paper");
            }
            let baths = (
                developers.get(before_block.id.as_str()),
                developers.get(block.id.as_str()),
            );
            if matches!(baths, (Some(a), Some(b)) if a != b) {
                changed.push("the developer");
            }
            if before.preflash.is_absent() != now.preflash.is_absent() {
                changed.push("the preflash");
            }
            let given = (given(context, before_block, before), given(context, block, now));
            if !changed.is_empty() && matches!(given, (Some(a), Some(b)) if (a - b).abs() > ANOTHER) {
                changed.push("the exposure");
            }
            if changed.len() < 2 {
                continue;
            }
            let message = format!(
                "since `{}`, which was not right, {} changed together",
                before_block.name(),
                changed.join(" and ")
            );
            report.add(
                report
                    .finding(block.head, message)
                    .help("change one thing at a time: whatever comes out, you know why")
                    .relate(before_block.head, "this is the sheet before"),
            );
        }
    }
}

/// Whether a sheet gave no reason to change anything; one that was not judged gave none.
fn is_right(exposure: &Exposure) -> bool {
    match exposure.result.get().map(|result| &result.value) {
        None | Some(Verdict::Right | Verdict::RightAtStep(_)) => true,
        Some(Verdict::Needs(_) | Verdict::Blank | Verdict::Black | Verdict::Leak) => false,
    }
}

/// The given time against what the light asks for, in stops.
fn given(context: &Context<'_>, block: &Block, exposure: &Exposure) -> Option<f64> {
    let time = exposure.time.get()?.range.best;
    let light = context.facts.range(&block.id, "light")?;
    let stops = libm::log2(time) + light.best;
    stops.is_finite().then_some(stops)
}

/// The developer's recipe by sheet.
fn developers<'n>(context: &Context<'n>) -> BTreeMap<&'n str, &'n str> {
    let mut developers = BTreeMap::new();
    for (_, session) in context.notebook.sessions() {
        let developer = session
            .baths
            .iter()
            .map(|(recipe, _)| recipe.value.as_str())
            .find(|id| {
                let bath = context.facts.baths.get(id);
                bath.is_some_and(|bath| bath.role() == Some(Role::Developer))
            });
        if let Some(developer) = developer {
            developers.extend(
                session
                    .sheets
                    .iter()
                    .map(|sheet| (sheet.value.as_str(), developer)),
            );
        }
    }
    developers
}
