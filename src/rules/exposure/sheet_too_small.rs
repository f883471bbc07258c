//! A camera for larger sheets than the paper has.

use std::collections::BTreeSet;

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::Size;

use super::walk::exposures;

/// What the examples share.
macro_rules! page {
    () => {
        "
```camera
id: drum
pinhole: 0.35 mm
distance: 75 mm
format: 100×125 mm
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: pearl
light: EV 14
time: 2 min
result: right
by: MT
```
"
    };
}

pub(super) const RULE: Rule = Rule {
    name: slug::SHEET_TOO_SMALL,
    grade: Grade::Doubt,
    group: Group::Exposure,
    looks_for: "An exposure on a paper whose sheets are smaller than those that its camera takes.",
    why: "Such a sheet cannot have been cut from that packet, so one of the two sizes is wrong, and with it the angle of view, \
          the silver and what the baths still take.",
    instead: "Write the size of the packet as `size`, and the sheet that lies in the camera as `format`. A smaller format is right: the sheet was cut.",
    threshold: Some(
        "More than 5 % longer or wider, whichever way it is turned; inches and centimetres of one name differ by less.",
    ),
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(concat!(
            page!(),
            "
```paper
id: pearl
base: RC
size: 60×90 mm
speed: 5
reciprocity: 1.15
```
"
        )),
        Example::good(concat!(
            page!(),
            "
```paper
id: pearl
base: RC
size: 100×125 mm
speed: 5
reciprocity: 1.15
```
"
        )),
        Example::good(concat!(
            page!(),
            "
```paper
id: pearl
base: RC
size: 8×10 in
speed: 5
reciprocity: 1.15
```
"
        )),
    ],
    check: Some(check),
};

/// How much longer a format may be than the sheet: sizes of one name differ by so much. Common practice, no source.
const ALIKE: f64 = 1.05;

fn check(context: &Context<'_>, report: &mut Report) {
    let notebook = context.notebook;
    let mut told = BTreeSet::new();
    for (_, exposure) in exposures(context) {
        let (Some(camera), Some(named)) = (exposure.camera.get(), exposure.paper.get()) else {
            continue;
        };
        let (camera, paper) = (notebook.camera(&camera.value), notebook.paper(&named.value));
        let (Some((tin, camera)), Some((block, paper))) = (camera, paper) else {
            continue;
        };
        let (Some(format), Some(size)) = (camera.format.get(), paper.size.get()) else {
            continue;
        };
        let ([short, long], [narrow, wide]) = (sides(&format.value), sides(&size.value));
        let fits = short <= narrow * ALIKE && long <= wide * ALIKE;
        if fits || !told.insert((&tin.id, &block.id)) {
            continue;
        }
        let message = format!(
            "`{}` comes in sheets of {}, and `{}` takes {}",
            block.name(),
            size.value.written,
            tin.name(),
            format.value.written
        );
        report.add(
            report
                .finding(named.span, message)
                .help("name the paper that the sheet was cut from, or mend one of the sizes")
                .relate(format.span, "the camera's sheet")
                .relate(size.span, "the paper's sheet"),
        );
    }
}

/// The short and the long side in mm.
fn sides(size: &Size) -> [f64; 2] {
    let (width, height) = (size.width.millimetres(), size.height.millimetres());
    [width.min(height), width.max(height)]
}
