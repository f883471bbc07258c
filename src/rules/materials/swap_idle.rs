//! A swap for something that the recipe does not hold.

use crate::finding::{Grade, slug};
use crate::notebook::{Swap, nearest};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::SWAP_IDLE,
    grade: Grade::Doubt,
    group: Group::Materials,
    looks_for: "A batch that took one material in the place of another which its recipe does not have.",
    why: "Either the name is misspelt or the batch is of another recipe. What was really mixed is not known.",
    instead: "Write the recipe's own name for the material on the left.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: rosemary
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 36 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      vitamin C powder: 12 g
    steps:
      - dissolve: 2 min
steps:
  - pour: [agent, into alkali]
  - make up
keeps: 1 h
```

```batch
id: may-mix
of: rosemary
made: 2031-05-02 19:00
volume: 1 l
swaps:
  vitamin C crystals: ascorbic acid
```
",
        ),
        Example::good(
            "
```recipe
id: rosemary
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 36 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      vitamin C powder: 12 g
    steps:
      - dissolve: 2 min
steps:
  - pour: [agent, into alkali]
  - make up
keeps: 1 h
```

```batch
id: may-mix
of: rosemary
made: 2031-05-02 19:00
volume: 1 l
swaps:
  vitamin C powder: ascorbic acid
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, batch) in context.notebook.batches() {
        let recipe = context.facts.baths.of_batch(&block.id, batch);
        let Some(recipe) = recipe.filter(|recipe| recipe.complete) else {
            continue;
        };
        for swap in &batch.swaps {
            let Swap::Material { from, .. } = swap else {
                continue;
            };
            let mut names = recipe.doses.iter().map(|dose| dose.name.value.as_str());
            if names.clone().any(|name| name == from.value) {
                continue;
            }
            let message = format!("`{}` has no `{}` to swap", recipe.id, from.value);
            let near = nearest(&from.value, names.clone()).or_else(|| names.next());
            report.add(report.finding(from.span, message).help(match near {
                Some(near) => format!("write the recipe's own name, such as `{near}`"),
                None => "the recipe holds no material yet".to_owned(),
            }));
        }
    }
}
