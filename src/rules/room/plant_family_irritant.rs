//! A plant of a family that irritates.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::PLANT_FAMILY_IRRITANT,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A plant whose `family` is known for rashes, allergies or burns in sunlight.",
    why: "Celery, parsnip, hogweed and rue make skin burn in the sun; spurges have a caustic sap; daisies and \
              figs bring rashes and allergies.",
    instead: "Take another plant. Or wear gloves, keep it off skin and out of the sun, and ask everyone about \
              allergies first; then acknowledge this with that as the reason.",
    threshold: Some(
        "Apiaceae, Rutaceae, Euphorbiaceae, Moraceae, Asteraceae, Fabaceae, Ranunculaceae, Anacardiaceae.",
    ),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```ingredient
material: ivy leaf, fresh
form: fresh
source: the wall behind the hall
plant:
  name: ivy
  part: leaf
  picked: 2031-05-01
  where: the wall behind the hall
  family: Apiaceae
  allowed by: the caretaker
  named by: I. Rann, who teaches plants
```
",
        ),
        Example::good(
            "
```ingredient
material: ivy leaf, fresh
form: fresh
source: the wall behind the hall
plant:
  name: ivy
  part: leaf
  picked: 2031-05-01
  where: the wall behind the hall
  family: Rosaceae
  allowed by: the caretaker
  named by: I. Rann, who teaches plants
```
",
        ),
    ],
    check: Some(check),
};

/// Families and what they do (common practice; the English names are for those who write them).
const FAMILIES: &[(&[&str], &str)] = &[
    (
        &["apiaceae", "umbelliferae", "carrot", "celery", "parsley"],
        "burns skin in sunlight",
    ),
    (&["rutaceae", "rue"], "burns skin in sunlight"),
    (&["euphorbiaceae", "spurge"], "has a caustic sap"),
    (
        &["moraceae", "mulberry", "fig"],
        "brings rashes, worse in sunlight",
    ),
    (
        &["asteraceae", "compositae", "daisy", "aster"],
        "brings allergies of the skin",
    ),
    (
        &["fabaceae", "leguminosae", "pea", "legume"],
        "holds poisonous kinds and brings allergies",
    ),
    (&["ranunculaceae", "buttercup"], "blisters skin when fresh"),
    (
        &["anacardiaceae", "sumac", "sumach", "cashew"],
        "holds kinds that blister skin for weeks",
    ),
];

fn check(context: &Context<'_>, report: &mut Report) {
    for (_block, ingredient) in context.notebook.ingredients() {
        let Some(family) = ingredient.plant.get().and_then(|plant| plant.family.get()) else {
            continue;
        };
        let written = family.value.to_lowercase();
        let word = written.trim().trim_end_matches(" family");
        let known = FAMILIES.iter().find(|(names, _)| names.contains(&word));
        let Some((_, does)) = known else { continue };
        report.add(
            report
                .finding(family.span, format!("this family {does}"))
                .help("take another plant; or gloves, no sun on it, ask about allergies, and acknowledge this with that"),
        );
    }
}
