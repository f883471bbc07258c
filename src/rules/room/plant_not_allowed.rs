//! A plant picked without leave.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::PLANT_NOT_ALLOWED,
    grade: Grade::Hint,
    group: Group::Room,
    looks_for: "A plant of the notebook's own with a place and without `allowed by`.",
    why: "It may be protected, sprayed, or somebody's.",
    instead: "Ask whose land it is and whether it was sprayed, and write down who allowed the picking.",
    threshold: None,
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
  family: Araliaceae
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
  family: Araliaceae
  allowed by: the caretaker
  named by: I. Rann, who teaches plants
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, ingredient) in context.notebook.ingredients() {
        let Some(plant) = ingredient.plant.get() else {
            continue;
        };
        let (Some(place), true, false) = (plant.place.get(), plant.allowed_by.is_absent(), block.broken)
        else {
            continue;
        };
        report.add(
            report
                .finding(place.span, "who allowed the picking is not noted")
                .help("ask whose land it is and whether it was sprayed, and write `allowed by:`"),
        );
    }
}
