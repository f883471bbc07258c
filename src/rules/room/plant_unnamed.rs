//! A plant that nobody has named for sure.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::PLANT_UNNAMED,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A plant of the notebook's own without `named by`.",
    why: "Hogweed, rue and spurge burn skin, and look like harmless plants to who does not know them.",
    instead: "Let someone who knows say what it is, and write down who. Leave it out if nobody is sure.",
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
  allowed by: the caretaker
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
        if !plant.named_by.is_absent() || block.broken {
            continue;
        }
        let name = plant.name.get().or(ingredient.material.get());
        let span = name.map_or(block.head, |name| name.span);
        report.add(
            report
                .finding(span, "nobody has said for sure what plant this is")
                .help("write `named by:` and who is sure of it, or leave the plant out"),
        );
    }
}
